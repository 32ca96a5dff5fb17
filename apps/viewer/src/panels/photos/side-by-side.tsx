import { Button, Checkbox } from '@mantine/core';
import { useState } from 'react';
import type { Photo } from '../../api/photos.js';
import { Sheet } from '../../components/sheet.js';
import { inOrderOfDays, weeksIn, weeksWords } from './photo-age.js';
import { photoWords } from './photo-words.js';
import styles from './side-by-side.module.css';

interface SideBySideProps {
  of: string;
  photos: readonly Photo[];
  hatchDate: string | null;
}

/** A fish's pictures over its weeks in one row; two or more chosen stand large beside each other. */
export function SideBySide({ of, photos, hatchDate }: SideBySideProps) {
  const [opened, setOpened] = useState(false);
  if (photos.length < 2) return null;
  return (
    <>
      <Button onClick={() => setOpened(true)}>Side by side</Button>
      <Sheet
        title={`${of} over its weeks`}
        opened={opened}
        onClose={() => setOpened(false)}
        size={1200}
      >
        <Weeks of={of} photos={photos} hatchDate={hatchDate} />
      </Sheet>
    </>
  );
}

function Weeks({ of, photos, hatchDate }: SideBySideProps) {
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [large, setLarge] = useState(false);
  const all = inOrderOfDays(photos);
  const shown = large ? all.filter(({ id }) => chosen.includes(id)) : all;
  const toggle = (id: string) =>
    setChosen((before) =>
      before.includes(id) ? before.filter((one) => one !== id) : [...before, id],
    );
  return (
    <>
      <div className="lw-actions">
        {large ? (
          <Button onClick={() => setLarge(false)}>All pictures</Button>
        ) : (
          <Button disabled={chosen.length < 2} onClick={() => setLarge(true)}>
            Compare large
          </Button>
        )}
        <span className="lw-quiet" role="status">
          {chosen.length < 2 ? 'Choose two or more to compare.' : `${chosen.length} chosen`}
        </span>
      </div>
      <ol className={large ? styles['large'] : styles['weeks']}>
        {shown.map((photo) => (
          <li key={photo.id}>
            <img
              src={large ? photo.path : photo.smallPath}
              alt={photoWords(photo, of)}
              loading="lazy"
            />
            <p>
              <strong>{weeksWords(weeksIn(photo, hatchDate))}</strong>
              <br />
              <span className="lw-small">{photo.takenOn ?? 'date not recorded'}</span>
            </p>
            {!large && (
              <Checkbox
                label="Choose"
                aria-label={`Choose: ${photoWords(photo, of)}`}
                checked={chosen.includes(photo.id)}
                onChange={() => toggle(photo.id)}
              />
            )}
          </li>
        ))}
      </ol>
    </>
  );
}
