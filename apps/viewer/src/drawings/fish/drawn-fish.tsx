import { FISH_BOX, fishLayers, fishLook, type KnownBeside, type Shows } from '@linewright/pictures';
import styles from './drawn-fish.module.css';

export interface DrawnFishProps extends KnownBeside {
  /** What is seen, by locus. */
  readonly shows: Shows;
  /** The same in words, for whoever does not see it; null where they stand beside it. */
  readonly words: string | null;
  readonly size?: 'small' | 'large';
}

/** A fish drawn from what is known of its looks: a drawing, and no photo of anybody's fish. */
export function DrawnFish({ shows, words, size = 'small', ...beside }: DrawnFishProps) {
  const layers = fishLayers(fishLook(shows, beside), size === 'large');
  const { x, y, width, height } = FISH_BOX;
  return (
    <svg
      className={size === 'large' ? styles['large'] : styles['small']}
      viewBox={`${x} ${y} ${width} ${height}`}
      {...(words === null
        ? { 'aria-hidden': true }
        : { role: 'img', 'aria-label': `Drawn fish: ${words}` })}
    >
      {layers.map(({ part, d, fill = 'none', stroke, width: strokeWidth, opacity, isEdge }, k) => (
        <path
          key={`${part} ${k}`}
          {...{ d, fill, opacity }}
          {...(stroke !== undefined && { stroke, strokeWidth, strokeLinecap: 'round' as const })}
          {...(isEdge && { vectorEffect: 'non-scaling-stroke' })}
        />
      ))}
    </svg>
  );
}
