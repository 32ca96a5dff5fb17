import { Button, FileButton } from '@mantine/core';
import { useFormContext } from 'react-hook-form';
import { sexWord } from '../../wording/words.js';
import type { FounderRow } from './founder-rows.js';
import type { FounderPhotos } from './use-founder-photos.js';
import styles from './founders.module.css';

/** The picture of one founder: taken or chosen, shown by its name, and taken out again. */
export function FounderPhoto({ row, photos }: { row: FounderRow; photos: FounderPhotos }) {
  // Part of the form around it, which tells when leaving would lose it.
  useFormContext();
  const name = photos.nameOf(row.id);
  const of = row.tag === '' ? sexWord[row.sex] : row.tag;
  return (
    <div className={styles['photo']}>
      <FileButton
        accept="image/jpeg,image/png,image/webp"
        onChange={(file) => photos.choose(row.id, file)}
      >
        {(props) => (
          <Button {...props} aria-label={`${name === null ? 'Photo' : 'Another photo'} of ${of}`}>
            {name === null ? 'Photo' : 'Another'}
          </Button>
        )}
      </FileButton>
      {name !== null && (
        <>
          <span className={styles['file']}>{name}</span>
          <Button aria-label={`No photo of ${of}`} onClick={() => photos.choose(row.id, null)}>
            Remove
          </Button>
        </>
      )}
    </div>
  );
}

/** The fish are saved, and their pictures go out; where some fail they are sent again, or left out. */
export function PhotosNotSent({ photos, onDone }: { photos: FounderPhotos; onDone: () => void }) {
  if (photos.sending) return <p role="status">The fish are saved. Sending their photos…</p>;
  return (
    <div className="lw-notice lw-notice-problem" role="alert">
      <p>
        <strong aria-hidden="true">! </strong>
        The fish are saved; these photos are not:
      </p>
      <ul>
        {photos.notSent.map(({ id, tag, why }) => (
          <li key={id}>
            {tag}: {why}
          </li>
        ))}
      </ul>
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          onClick={async () => {
            if (await photos.sendAgain()) onDone();
          }}
        >
          Send them again
        </Button>
        <Button onClick={onDone}>Go on without them</Button>
      </div>
    </div>
  );
}
