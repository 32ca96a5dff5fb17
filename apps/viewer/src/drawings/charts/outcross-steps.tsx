import * as d3 from 'd3';
import { clsx } from 'clsx';
import { useWidth } from '../use-width.js';
import { Guide, GuideName, LevelAxis, UprightAxis } from './axis.js';
import { plotArea, ticksOf } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './outcross-steps.module.css';

export interface OutcrossStep {
  /** Short enough to stand below a mark: "cross", "back 1". */
  readonly name: string;
  readonly value: number;
  /** Standard error; left out where the value is exact. */
  readonly error?: number;
}

export interface OutcrossStepsProps {
  readonly title: string;
  /** Mean of the fish of the line, with which each step is compared. */
  readonly line: number;
  /** What is believed of the partner; left out where it has no such figure. */
  readonly partner?: number;
  readonly steps: readonly OutcrossStep[];
  /** A value with its unit. */
  readonly words: (value: number) => string;
  /** Where the same figures can be read. */
  readonly sameFigures: string;
}

const MARGIN = { top: 14, right: 14, bottom: 26, left: 56 };

/** From the lowest to the highest of all that is drawn; a little room where all are the same. */
export function stepsDomain({
  line,
  partner,
  steps,
}: Pick<OutcrossStepsProps, 'line' | 'partner' | 'steps'>): [number, number] {
  const values = [
    line,
    ...(partner === undefined ? [] : [partner]),
    ...steps.flatMap(({ value, error = 0 }) => [value - error, value + error]),
  ];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return least === most ? [least - 0.5, most + 0.5] : [least, most];
}

/** The picture in a sentence. */
export function stepsText({ line, partner, steps, words }: OutcrossStepsProps): string {
  const told = steps.map(
    ({ name, value, error }) =>
      `${name} ${words(value)}${error === undefined ? '' : ` ± ${words(error)}`}`,
  );
  const beside = partner === undefined ? '' : `, partner ${words(partner)}`;
  return `Line ${words(line)}${beside}: ${told.join(', ')}.`;
}

/** One figure of the young, from the cross through the generations after it, beside the line and the partner. */
export function OutcrossSteps(props: OutcrossStepsProps) {
  const { title, line, partner, steps, words, sameFigures } = props;
  const [figure, width] = useWidth<HTMLDivElement>(420);
  const area = plotArea(width, 210, MARGIN);
  const names = [
    'line',
    ...(partner === undefined ? [] : ['partner']),
    ...steps.map(({ name }) => name),
  ];
  const x = d3.scalePoint(names, [area.left, area.right]).padding(0.5);
  const y = d3.scaleLinear(stepsDomain(props), [area.bottom - 8, area.top + 8]).nice(4);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={`${stepsText(props)} ${sameFigures}`}
    >
      <UprightAxis area={area} ticks={ticksOf(y, 4, words)} />
      <LevelAxis area={area} ticks={names.map((name) => ({ at: x(name)!, text: name }))} />
      <Guide area={area} at={y(line)} />
      {partner !== undefined && (
        <path
          className={clsx(styles['mark'], styles['partner'])}
          d={d3.symbol(d3.symbolDiamond, 90)() ?? ''}
          transform={`translate(${x('partner')!} ${y(partner)})`}
        />
      )}
      <path
        className={styles['course']}
        d={
          d3.line<OutcrossStep>(
            (one) => x(one.name)!,
            (one) => y(one.value),
          )(steps) ?? ''
        }
      />
      {steps.map(({ name, value, error }) => (
        <g key={name} transform={`translate(${x(name)!} 0)`}>
          {error !== undefined && (
            <path
              className={styles['error']}
              d={`M-5 ${y(value - error)}h10m-5 0V${y(value + error)}m-5 0h10`}
            />
          )}
          <circle className={styles['mark']} cy={y(value)} r={5} />
        </g>
      ))}
      <GuideName area={area} at={y(line)} text={words(line)} />
    </PlotFigure>
  );
}
