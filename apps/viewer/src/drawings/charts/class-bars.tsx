import { clsx } from 'clsx';
import { useId } from 'react';
import * as d3 from 'd3';
import { expectedCount } from '../figures.js';
import { FillDefinitions, fillId } from './fills.js';
import barTableStyles from './bar-table.module.css';
import chartsStyles from './charts.module.css';

export interface ExpectedClass {
  readonly id: string;
  readonly label: string;
  /** Exact, such as 3/16. */
  readonly fraction: string;
  readonly probability: number;
  readonly observed?: number | null;
}

export interface ClassBarsProps {
  readonly classes: readonly ExpectedClass[];
  /** Expected count of a class = probability × brood size. */
  readonly broodSize: number;
  readonly title?: string;
  readonly caption?: string;
}

/** Expected classes of a brood with the counts observed beside them. */
export function ClassBars({ classes, broodSize, title, caption }: ClassBarsProps) {
  const scope = useId();
  const seen = classes.some((one) => typeof one.observed === 'number');
  const most =
    d3.max(classes, (one) => Math.max(one.probability * broodSize, one.observed ?? 0)) ?? 1;
  const width = d3.scaleLinear([0, Math.max(most, 1e-9)], [0, 100]);
  return (
    <figure className={clsx(barTableStyles['class-bars'], 'lw-drawing')}>
      <figcaption>{title ?? `Expected in a brood of ${broodSize}`}</figcaption>
      <table>
        <BarHead seen={seen} scope={scope} />
        <tbody>
          {classes.map((one) => {
            const expected = one.probability * broodSize;
            return (
              <ClassRow
                key={one.id}
                one={one}
                expected={expected}
                seen={seen}
                width={width}
                scope={scope}
              />
            );
          })}
        </tbody>
      </table>
      {/* Patterns live in one small drawing, which must not be display:none or they vanish with it. */}
      <svg width="0" height="0" className={chartsStyles['definitions']} aria-hidden="true">
        <FillDefinitions scope={scope} />
      </svg>
      {caption !== undefined && <p className="lw-quiet-text">{caption}</p>}
    </figure>
  );
}

interface ClassRowProps {
  one: ExpectedClass;
  expected: number;
  seen: boolean;
  width: d3.ScaleLinear<number, number, never>;
  scope: string;
}

function ClassRow({ one, expected, seen, width, scope }: ClassRowProps) {
  return (
    <tr>
      <th scope="row">{one.label}</th>
      <td className="lw-drawing-number">{one.fraction}</td>
      <td className="lw-drawing-number">{expectedCount(expected)}</td>
      {seen && <td className="lw-drawing-number">{one.observed ?? '–'}</td>}
      <td aria-hidden="true" className={barTableStyles['bar-cell']}>
        <svg width="100%" height={seen ? 26 : 16}>
          <rect
            x="1"
            y="1"
            width={`${width(expected) * 0.99}%`}
            height={seen ? 11 : 14}
            fill={`url(#${fillId(scope, 1)})`}
            stroke="var(--d-accent-2)"
          />
          {typeof one.observed === 'number' && (
            <rect
              x="1"
              y="14"
              width={`${width(one.observed) * 0.99}%`}
              height="11"
              fill="var(--d-accent)"
            />
          )}
        </svg>
      </td>
    </tr>
  );
}

function BarHead({ seen, scope }: { seen: boolean; scope: string }) {
  return (
    <thead>
      <tr>
        <th scope="col">Class</th>
        <th scope="col" className="lw-drawing-number">
          Share
        </th>
        <th scope="col" className="lw-drawing-number">
          Expected
        </th>
        {seen && (
          <th scope="col" className="lw-drawing-number">
            Observed
          </th>
        )}
        <td aria-hidden="true" className={barTableStyles['bar-cell']}>
          <span className={barTableStyles['bar-key']}>
            <Swatch scope={scope} fill={1} /> expected
          </span>
          {seen && (
            <span className={barTableStyles['bar-key']}>
              <Swatch scope={scope} fill={0} /> observed
            </span>
          )}
        </td>
      </tr>
    </thead>
  );
}

export function Swatch({ scope, fill }: { readonly scope: string; readonly fill: number }) {
  return (
    <svg width="18" height="14" aria-hidden="true" className={chartsStyles['swatch']}>
      <rect
        x="0.5"
        y="0.5"
        width="17"
        height="13"
        fill={`url(#${fillId(scope, fill)})`}
        stroke="var(--d-edge)"
      />
    </svg>
  );
}
