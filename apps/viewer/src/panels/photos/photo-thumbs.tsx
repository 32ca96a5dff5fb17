import { useState } from 'react';
import type { Photo } from '../../api/photos.js';
import { photoWords } from './photo-words.js';
import { PhotoViewer } from './photo-viewer.js';
import styles from './photos.module.css';

interface PhotoThumbsProps {
  /** What they show: "conditioning begun of spawn T24-07". */
  of: string;
  photos: readonly Photo[];
  onChanged: () => void;
}

/** The pictures of one row of a list, small; one touched opens large. */
export function PhotoThumbs({ of, photos, onChanged }: PhotoThumbsProps) {
  const [shown, setShown] = useState<string | null>(null);
  if (photos.length === 0) return null;
  return (
    <>
      <ul className={styles['thumbs']}>
        {photos.map((photo) => (
          <li key={photo.id}>
            <button
              type="button"
              className={styles['open']}
              onClick={() => setShown(photo.id)}
              aria-label={`Open: ${photoWords(photo, of)}`}
            >
              <img src={photo.smallPath} alt="" loading="lazy" />
            </button>
          </li>
        ))}
      </ul>
      <PhotoViewer
        of={of}
        photos={photos}
        shown={shown}
        onShow={setShown}
        onClose={() => setShown(null)}
        onChanged={onChanged}
      />
    </>
  );
}
