import { clsx } from 'clsx';
import type { PlotArea, Tick } from './plot-area.js';
import styles from './charts.module.css';

interface AxisProps {
  readonly area: PlotArea;
  readonly ticks: readonly Tick[];
  /** What is measured, with its unit. */
  readonly name?: string;
}

/** Figures left of the data, each with a line across. The name stands above, in a line of its own: 30 px of room at the top. */
export function UprightAxis({ area, ticks, name }: AxisProps) {
  return (
    <>
      {ticks.map(({ at, text, line }) => (
        <g key={at} transform={`translate(0 ${at})`}>
          <line className={line ?? styles['gridline']} x1={area.left} x2={area.right} />
          <text className={styles['axis']} x={area.left - 8} y={4} textAnchor="end">
            {text}
          </text>
        </g>
      ))}
      {name !== undefined && (
        <text className={styles['axis']} x={area.left - 8} y={area.top - 17} textAnchor="end">
          {name}
        </text>
      )}
    </>
  );
}

interface LevelAxisProps extends AxisProps {
  /** With a line up from each figure. */
  readonly lines?: boolean;
}

/** Figures below the data, and the name below them: 24 px of room at the bottom, with a name 38. */
export function LevelAxis({ area, ticks, name, lines = false }: LevelAxisProps) {
  return (
    <>
      {ticks.map(({ at, text, line }) => (
        <g key={at} transform={`translate(${at} 0)`}>
          {lines && <line className={line ?? styles['gridline']} y1={area.top} y2={area.bottom} />}
          <text className={styles['axis']} y={area.bottom + 16} textAnchor="middle">
            {text}
          </text>
        </g>
      ))}
      {name !== undefined && (
        <text
          className={styles['axis']}
          x={(area.left + area.right) / 2}
          y={area.height - 5}
          textAnchor="middle"
        >
          {name}
        </text>
      )}
    </>
  );
}

interface GuideProps {
  readonly area: PlotArea;
  readonly at: number;
}

/** A level to compare with, dashed across the data. */
export function Guide({ area, at }: GuideProps) {
  return <line className={styles['guide']} x1={area.left} x2={area.right} y1={at} y2={at} />;
}

/** What a guide is; drawn after the data, over which it stays readable. */
export function GuideName({ area, at, text }: GuideProps & { readonly text: string }) {
  return (
    <text className={clsx(styles['axis'], styles['guide-label'])} x={area.left + 6} y={at - 5}>
      {text}
    </text>
  );
}
