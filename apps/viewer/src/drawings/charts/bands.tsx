import { clsx } from 'clsx';
import chartsStyles from './charts.module.css';
import styles from './bands.module.css';

/** Between `low` and `high` the true value lies in `percent` of 100 cases. */
export interface ChanceBand {
  readonly percent: number;
  readonly low: number;
  readonly high: number;
}

const widest = 14;

/** Widest first, so that a narrow band lies on a wide one. */
export const widestFirst = (bands: readonly ChanceBand[]): ChanceBand[] =>
  [...bands].sort((a, b) => b.percent - a.percent);

/** The surer a band is, the thinner it is drawn: 50 as a bar, 95 as little more than a line. */
export const bandHeight = (percent: number): number =>
  percent >= 95 ? 4 : percent >= 80 ? 9 : widest;

interface BandMarkProps {
  bands: readonly ChanceBand[];
  /** The best single figure; none where it is left out. */
  middle?: number;
  x: (value: number) => number;
  y: number;
}

/** Nested bars of what is likely, thick where it is likeliest, and a dot for the best single figure. */
export function BandMark({ bands, middle, x, y }: BandMarkProps) {
  return (
    <g>
      {widestFirst(bands).map(({ percent, low, high }) => (
        <rect
          key={percent}
          className={clsx(styles['band-bar'], styles[`band-${percent}`])}
          x={x(low)}
          y={y - bandHeight(percent) / 2}
          width={Math.max(1, x(high) - x(low))}
          height={bandHeight(percent)}
        />
      ))}
      {middle !== undefined && (
        <circle className={styles['band-middle']} cx={x(middle)} cy={y} r={5} />
      )}
    </g>
  );
}

interface BandKeyProps {
  percents: readonly number[];
  /** What the dot is; left out where none is drawn. */
  middle?: string;
}

/** What the bars and the dot mean. */
export function BandKey({ percents, middle }: BandKeyProps) {
  return (
    <ul className={chartsStyles['legend']}>
      {middle !== undefined && (
        <li>
          <svg width="18" height="16" aria-hidden="true" className={chartsStyles['swatch']}>
            <circle className={styles['band-middle']} cx={9} cy={8} r={5} />
          </svg>
          {middle}
        </li>
      )}
      {[...percents]
        .sort((a, b) => a - b)
        .map((percent) => (
          <li key={percent}>
            <svg width="28" height="16" aria-hidden="true" className={chartsStyles['swatch']}>
              <rect
                className={clsx(styles['band-bar'], styles[`band-${percent}`])}
                x={0.5}
                y={8 - bandHeight(percent) / 2}
                width={27}
                height={bandHeight(percent)}
              />
            </svg>
            right in {percent} of 100 cases
          </li>
        ))}
    </ul>
  );
}
