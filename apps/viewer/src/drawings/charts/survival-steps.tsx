import { clsx } from 'clsx';
import { useId } from 'react';
import { percent } from '../figures.js';
import { FillDefinitions, fillId } from './fills.js';
import barTableStyles from './bar-table.module.css';
import chartsStyles from './charts.module.css';

export interface SurvivalStage {
  readonly id: string;
  readonly label: string;
  /** `null`: not counted. */
  readonly count: number | null;
  readonly on?: string | null;
  readonly note?: string | null;
}

export interface SurvivalStepsProps {
  /** In order of time. */
  readonly stages: readonly SurvivalStage[];
  readonly title?: string;
}

/** Counts of one spawn from egg to jar, each step as a share of the last stage counted and of the first. */
export function SurvivalSteps({ stages, title }: SurvivalStepsProps) {
  const scope = useId();
  const counted = stages.filter((stage) => stage.count !== null);
  const first = counted[0]?.count ?? 0;
  const most = Math.max(1, ...counted.map((stage) => stage.count ?? 0));
  return (
    <figure className={clsx(barTableStyles['survival'], 'lw-drawing')}>
      <figcaption>{title ?? 'From egg to jar'}</figcaption>
      <svg width="0" height="0" className={chartsStyles['definitions']} aria-hidden="true">
        <FillDefinitions scope={scope} />
      </svg>
      <table>
        <StepHead />
        <tbody>
          {stages.map((stage, i) => {
            const before = stages.slice(0, i).findLast((one) => one.count !== null)?.count ?? null;
            const share = (of: number | null): string =>
              stage.count === null || of === null || of === 0 ? '–' : percent(stage.count / of);
            const lost =
              before !== null && stage.count !== null ? Math.max(0, before - stage.count) : 0;
            return (
              <StageRow
                key={stage.id}
                stage={stage}
                share={share}
                before={before}
                first={first}
                most={most}
                lost={lost}
                scope={scope}
              />
            );
          })}
        </tbody>
      </table>
      <p className="lw-quiet-text">
        Solid: counted at the stage. Crossed: lost since the stage before.
      </p>
    </figure>
  );
}

interface StageRowProps {
  stage: SurvivalStage;
  share: (of: number | null) => string;
  before: number | null;
  first: number;
  most: number;
  lost: number;
  scope: string;
}

function StageRow({ stage, share, before, first, most, lost, scope }: StageRowProps) {
  return (
    <tr>
      <th scope="row">
        {stage.label}
        {(stage.on ?? stage.note) && (
          <small>{[stage.on, stage.note].filter((text) => text).join(' · ')}</small>
        )}
      </th>
      <td className="lw-drawing-number">{stage.count ?? 'not counted'}</td>
      <td className="lw-drawing-number">{share(before)}</td>
      <td className="lw-drawing-number">
        {stage.count === first && before === null ? '' : share(first)}
      </td>
      <td aria-hidden="true" className={barTableStyles['bar-cell']}>
        {stage.count !== null && (
          <svg width="100%" height="22">
            <rect
              x="0"
              y="2"
              width={`${(100 * stage.count) / most}%`}
              height="18"
              fill="var(--d-accent)"
            />
            {lost > 0 && (
              <rect
                x={`${(100 * stage.count) / most}%`}
                y="2"
                width={`${(100 * lost) / most}%`}
                height="18"
                fill={`url(#${fillId(scope, 7)})`}
                opacity="0.8"
              />
            )}
          </svg>
        )}
      </td>
    </tr>
  );
}

function StepHead() {
  return (
    <thead>
      <tr>
        <th scope="col">Stage</th>
        <th scope="col" className="lw-drawing-number">
          Count
        </th>
        <th scope="col" className="lw-drawing-number">
          Of the stage before
        </th>
        <th scope="col" className="lw-drawing-number">
          Of the first stage
        </th>
        <td aria-hidden="true" className={barTableStyles['bar-cell']} />
      </tr>
    </thead>
  );
}
