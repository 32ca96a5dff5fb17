import * as d3 from 'd3';
import { useId } from 'react';
import barTableStyles from './bar-table.module.css';
import { Swatch } from './class-bars.js';
import chartsStyles from './charts.module.css';
import { FillDefinitions, fillId } from './fills.js';
import styles from './expected-and-came.module.css';

export interface StepOfGeneration {
  readonly generation: number;
  /** What it was expected to gain on the one before, and what its mean score did gain. */
  readonly expected: number | null;
  readonly came: number | null;
}

export interface ExpectedAndCameProps {
  readonly steps: readonly StepOfGeneration[];
  /** A difference with its sign and unit. */
  readonly change: (value: number) => string;
}

/** The largest step either way, so that 0 stands in one place down the column. */
export function reachOf(steps: readonly Pick<StepOfGeneration, 'expected' | 'came'>[]) {
  const all = steps.flatMap(({ expected, came }) => [expected ?? 0, came ?? 0]);
  const [least, most] = [Math.min(0, ...all), Math.max(0, ...all)];
  return least === most ? ([-1, 1] as const) : ([least, most] as const);
}

/** What was expected of each generation beside what came: a table whose bars are its picture. */
export function ExpectedAndCame({ steps, change }: ExpectedAndCameProps) {
  const scope = useId();
  const known = steps.filter(({ expected, came }) => expected !== null || came !== null);
  if (known.length === 0) return null;
  const x = d3.scaleLinear(reachOf(known), [1, 99]);
  const written = (value: number | null): string => (value === null ? '–' : change(value));
  return (
    <div className={styles['responses']}>
      <table>
        <caption>
          What each generation gained on the one before
          <span className={styles['responses-key']}>
            <span className={barTableStyles['bar-key']}>
              <Swatch scope={scope} fill={1} /> expected
            </span>
            <span className={barTableStyles['bar-key']}>
              <Swatch scope={scope} fill={0} /> came
            </span>
          </span>
        </caption>
        <thead>
          <tr>
            <th scope="col">Generation</th>
            <th scope="col" className="lw-drawing-number">
              Expected
            </th>
            <th scope="col" className="lw-drawing-number">
              Came
            </th>
            <td aria-hidden="true" className={styles['response-bars']} />
          </tr>
        </thead>
        <tbody>
          {known.map(({ generation, expected, came }) => (
            <tr key={generation}>
              <th scope="row">{generation}</th>
              <td className="lw-drawing-number">{written(expected)}</td>
              <td className="lw-drawing-number">{written(came)}</td>
              <td aria-hidden="true" className={styles['response-bars']}>
                <Bars scope={scope} expected={expected} came={came} x={x} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {/* Patterns live in one small drawing, which must not be display:none or they vanish with it. */}
      <svg width="0" height="0" className={chartsStyles['definitions']} aria-hidden="true">
        <FillDefinitions scope={scope} />
      </svg>
    </div>
  );
}

function Bars({
  scope,
  expected,
  came,
  x,
}: {
  scope: string;
  expected: number | null;
  came: number | null;
  x: d3.ScaleLinear<number, number>;
}) {
  const bar = (value: number | null, y: number, fill: number) =>
    value !== null && (
      <rect
        x={`${Math.min(x(0), x(value))}%`}
        width={`${Math.abs(x(value) - x(0))}%`}
        y={y}
        height="10"
        fill={`url(#${fillId(scope, fill)})`}
        stroke={fill === 0 ? 'var(--d-accent)' : 'var(--d-accent-2)'}
      />
    );
  return (
    <svg width="100%" height="26">
      {bar(expected, 2, 1)}
      {bar(came, 14, 0)}
      <line className={styles['no-gain']} x1={`${x(0)}%`} x2={`${x(0)}%`} y2="26" />
    </svg>
  );
}
