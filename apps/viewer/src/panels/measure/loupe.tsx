import type { Point } from '@linewright/pictures';
import { clsx } from 'clsx';
import type { Photo } from '../../api/photos.js';
import styles from './measure.module.css';

/** So much of the picture's longer side is seen in it. */
const SHARE = 0.08;

/** What lies under the finger, larger, in the corner that the finger is not in. */
export function Loupe({
  photo,
  at,
}: {
  photo: Pick<Photo, 'path' | 'width' | 'height'>;
  at: Point;
}) {
  const half = (SHARE / 2) * Math.max(photo.width, photo.height);
  const isRight = at.x > photo.width / 2;
  return (
    <svg
      className={clsx(styles['loupe'], isRight && styles['loupe-left'])}
      viewBox={`${at.x - half} ${at.y - half} ${2 * half} ${2 * half}`}
      aria-hidden="true"
    >
      <image href={photo.path} width={photo.width} height={photo.height} />
      {['#000', '#fff'].map((stroke, k) => (
        <path
          key={stroke}
          d={`M${at.x - half} ${at.y}H${at.x - half / 6}M${at.x + half / 6} ${at.y}H${at.x + half}M${at.x} ${at.y - half}V${at.y - half / 6}M${at.x} ${at.y + half / 6}V${at.y + half}`}
          stroke={stroke}
          strokeWidth={half / (k === 0 ? 20 : 45)}
        />
      ))}
    </svg>
  );
}
