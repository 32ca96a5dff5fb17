import { SPAWN_PHOTOS } from '../../api/photos.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { Shown } from '../../components/states.js';
import { PhotosSection } from '../../panels/photos/photos-section.js';
import { dayOf } from '../../wording/figures.js';
import { eventWord } from '../../wording/words.js';

/** Pictures of a spawn and of its events. */
export function SpawnPhotos({ spawn }: { spawn: SpawnFacts }) {
  const read = useRead(SPAWN_PHOTOS, { id: spawn.id });
  return (
    <Shown read={read} what="the photos">
      {({ spawn: { photos } }) => (
        <PhotosSection
          of={`spawn ${spawn.tag}`}
          photos={photos}
          onChanged={read.reload}
          subjects={[
            { kind: 'spawn', id: spawn.id, label: 'the spawn' },
            ...[...spawn.events]
              .sort((a, b) => b.at.localeCompare(a.at))
              .map((event) => ({
                kind: 'spawn_event' as const,
                id: event.id,
                label: `${dayOf(event.at)} ${eventWord[event.kind]}`,
              })),
          ]}
        />
      )}
    </Shown>
  );
}
