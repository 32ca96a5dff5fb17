import type { FishFacts } from '../../api/fish.js';
import { FISH_PHOTOS } from '../../api/photos.js';
import { useRead } from '../../api/use-read.js';
import { Shown } from '../../components/states.js';
import { PhotosSection } from '../../panels/photos/photos-section.js';

/** Pictures of a fish, and of it as it looked when it was scored. */
export function FishPhotos({ fish }: { fish: Pick<FishFacts, 'id' | 'tag' | 'hatchDate'> }) {
  const read = useRead(FISH_PHOTOS, { id: fish.id });
  return (
    <Shown read={read} what="the photos">
      {({ fish: { photos, sheetScorings } }) => (
        <PhotosSection
          of={fish.tag}
          hatchDate={fish.hatchDate}
          photos={photos}
          onChanged={read.reload}
          subjects={[
            { kind: 'fish', id: fish.id, label: 'the fish' },
            ...sheetScorings
              .filter((scoring) => scoring.withdrawn === null)
              .map((scoring) => ({
                kind: 'sheet_scoring' as const,
                id: scoring.id,
                label: `scored ${scoring.scoredOn}: ${scoring.sheet.name}`,
              })),
          ]}
        />
      )}
    </Shown>
  );
}
