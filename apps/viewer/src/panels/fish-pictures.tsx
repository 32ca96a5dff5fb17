import { useCallback, useEffect, useState, type ReactNode } from 'react';
import { FISH_PICTURES, type FishPicture } from '../api/photos.js';
import { useRead } from '../api/use-read.js';
import { FishPicturesContext } from '../components/fish-face.js';
import { inParts } from './in-parts.js';

type Found = ReadonlyMap<string, FishPicture>;

/** Asked for at once: a page of a list. */
const TOGETHER = 100;

/** The pictures of the fish that stand within: one question for a page of them, and the page does not wait for its answer. */
export function FishPictures({ ids, children }: { ids: readonly string[]; children: ReactNode }) {
  const [found, setFound] = useState<Found>(new Map());
  const onFound = useCallback(
    (ofPart: readonly FishPicture[], asked: readonly string[]) =>
      setFound((before) => withPart(before, ofPart, asked)),
    [],
  );
  return (
    <FishPicturesContext value={found}>
      {inParts(ids, TOGETHER).map((part) => (
        <PartAsked key={part[0]} ids={part} onFound={onFound} />
      ))}
      {children}
    </FishPicturesContext>
  );
}

function withPart(before: Found, part: readonly FishPicture[], asked: readonly string[]): Found {
  const after = new Map(before);
  for (const id of asked) after.delete(id);
  for (const picture of part) after.set(picture.fishId, picture);
  return after;
}

interface PartAskedProps {
  ids: readonly string[];
  onFound: (found: readonly FishPicture[], asked: readonly string[]) => void;
}

function PartAsked({ ids, onFound }: PartAskedProps) {
  const { data } = useRead(FISH_PICTURES, { fishIds: [...ids] });
  useEffect(() => {
    if (data !== undefined) onFound(data.fishPictures, ids);
    // An answer is of the ids that were asked for.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [data, onFound]);
  return null;
}
