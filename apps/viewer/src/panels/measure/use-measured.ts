import { type Marking, measuredOn, PicturesError, type Pixels } from '@linewright/pictures';
import { useEffect, useRef, useState } from 'react';
import type { Photo } from '../../api/photos.js';

export interface Measured {
  readonly value: number | null;
  /** Why there is no figure yet. */
  readonly problem: string | null;
}

const NONE: Measured = { value: null, problem: null };

/** The figure while it is marked, worked out as the server will; of colour from the copy that the gallery shows. */
export function useMeasured(photo: Photo, marking: Marking | null): Measured {
  const [measured, setMeasured] = useState(NONE);
  const pixels = useRef<Promise<Pixels> | null>(null);
  const key = JSON.stringify(marking);
  useEffect(() => {
    let isLatest = true;
    const tell = (now: Measured) => isLatest && setMeasured(now);
    const marked = JSON.parse(key) as Marking | null;
    if (marked === null) tell(NONE);
    else
      measuredOn(marked, photo, () => (pixels.current ??= pixelsOf(photo.smallPath))).then(
        (value) => tell({ value, problem: null }),
        (error: unknown) =>
          tell({
            value: null,
            problem:
              error instanceof PicturesError ? error.message : 'The picture could not be read.',
          }),
      );
    return () => {
      isLatest = false;
    };
  }, [key, photo]);
  return measured;
}

async function pixelsOf(path: string): Promise<Pixels> {
  const image = new Image();
  image.src = path;
  await image.decode();
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
  const drawn = canvas.getContext('2d', { willReadFrequently: true })!;
  drawn.drawImage(image, 0, 0);
  const { data, width, height } = drawn.getImageData(0, 0, canvas.width, canvas.height);
  return { data, width, height, channels: 4 };
}
