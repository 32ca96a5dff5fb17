import { notDrawn } from '@linewright/pictures';
import { createContext, useContext, useState } from 'react';
import type { FishPicture } from '../api/photos.js';
import { DrawnFish } from '../drawings/index.js';
import type { Sex } from '../wording/words.js';
import styles from './fish-face.module.css';

/** What there is to show of the fish of a page, by id; empty until it has come. */
export const FishPicturesContext = createContext<ReadonlyMap<string, FishPicture>>(new Map());

const SIZES = { row: styles['row'], card: styles['card'], sheet: styles['sheet'] };

interface FishFaceProps {
  fish: { readonly id: string; readonly tag: string; readonly sex?: Sex };
  size?: keyof typeof SIZES;
}

/**
 * A fish beside its tag: its newest photo, or else drawn from what was seen of it, or nothing. Words say which of the two it is, and how it
 * looks.
 */
export function FishFace({ fish, size = 'row' }: FishFaceProps) {
  const picture = useContext(FishPicturesContext).get(fish.id);
  const [gone, setGone] = useState<string | null>(null);
  if (picture === undefined) return <span className={SIZES[size]} />;
  const { photo, looks } = picture;
  // Without the server a row still shows what was taken along: the drawing.
  if (photo !== null && photo.id !== gone)
    return (
      <span className={SIZES[size]}>
        <img
          className={styles['photo']}
          src={size === 'row' ? photo.tinyPath : photo.smallPath}
          alt={faceWords(fish.tag, picture)}
          title={faceWords(fish.tag, picture)}
          loading="lazy"
          decoding="async"
          onError={() => setGone(photo.id)}
        />
      </span>
    );
  return (
    <span className={SIZES[size]}>
      <DrawnFace tag={fish.tag} sex={fish.sex} looks={looks} />
    </span>
  );
}

interface DrawnFaceProps {
  tag: string;
  sex: Sex | undefined;
  looks: FishPicture['looks'];
}

function DrawnFace({ tag, sex, looks }: DrawnFaceProps) {
  const shows = Object.fromEntries(looks.map((one) => [one.locusId, one.phenotype]));
  if (notDrawn(shows).length === looks.length) return null;
  return (
    <DrawnFish
      shows={shows}
      words={`${tag}, ${looks.map(({ name }) => name).join(', ')}`}
      {...(sex === 'FEMALE' && { sex: 'female' as const })}
    />
  );
}

/** A photo in words: its caption, or whose it is and from when. */
export const faceWords = (tag: string, { photo }: Pick<FishPicture, 'photo'>): string =>
  photo?.caption ?? `Photo of ${tag}${photo?.takenOn == null ? '' : `, taken on ${photo.takenOn}`}`;
