import { useState } from 'react';
import type { Photo } from '../../api/photos.js';
import { Section } from '../../components/section.js';
import { EmptyPart } from '../../components/empty-part.js';
import { dayOf, plural } from '../../wording/figures.js';
import { PhotoAdd } from './photo-add.js';
import { weeksIn, weeksWords } from './photo-age.js';
import { SideBySide } from './side-by-side.js';
import { PhotoViewer } from './photo-viewer.js';
import { useMayAdd } from '../../session/may.js';
import styles from './photos.module.css';
import { type PhotoSubjectChoice, photoWords } from './photo-words.js';

interface PhotosSectionProps {
  /** "T24-07-12" or "spawn T24-07". */
  of: string;
  subjects: readonly PhotoSubjectChoice[];
  photos: readonly Photo[];
  onChanged: () => void;
  /** Of a fish: its pictures are told by its age, and can stand side by side. */
  hatchDate?: string | null;
}

/** The pictures of a fish or a spawn: adding, looking, captions. */
export function PhotosSection(props: PhotosSectionProps) {
  const { of, subjects, photos, onChanged, hatchDate } = props;
  const [shown, setShown] = useState<string | null>(null);
  const mayChange = useMayAdd();
  return (
    <Section
      title="Photos"
      aside={photos.length === 0 ? undefined : plural(photos.length, 'photo')}
      actions={
        hatchDate !== undefined && <SideBySide of={of} photos={photos} hatchDate={hatchDate} />
      }
    >
      {mayChange && <PhotoAdd of={of} subjects={subjects} onSent={onChanged} />}
      {photos.length === 0 ? (
        <EmptyPart part="PHOTOS">
          No photo yet. The same side, flaring, at each score shows most later. The position and
          camera data in a picture are taken out before it is kept.
        </EmptyPart>
      ) : (
        <ul className={styles['photos']}>
          {photos.map((photo) => (
            <li key={photo.id}>
              <button
                type="button"
                className={styles['open']}
                onClick={() => setShown(photo.id)}
                aria-label={`Open: ${photoWords(photo, of)}`}
              >
                <img src={photo.smallPath} alt={photoWords(photo, of)} loading="lazy" />
              </button>
              <div className={styles['words']}>
                {photo.takenOn ?? dayOf(photo.addedAt)}
                {hatchDate != null && ` · ${weeksWords(weeksIn(photo, hatchDate))}`}
                {photo.caption !== null && ` · ${photo.caption}`}
              </div>
            </li>
          ))}
        </ul>
      )}
      <PhotoViewer
        of={of}
        photos={photos}
        shown={shown}
        onShow={setShown}
        onClose={() => setShown(null)}
        onChanged={onChanged}
      />
    </Section>
  );
}
