import type { PlannedBrood } from '../../api/pairings.js';
import { percent, plainNumber } from '../../wording/figures.js';
import { pointsText, worthText } from '../../wording/worth-words.js';

type Pair = Pick<
  PlannedBrood,
  'worth' | 'passing' | 'inbreedingCoefficient' | 'warnings' | 'sire' | 'dam'
>;

/** One thing told of both pairs. */
export interface Beside {
  readonly name: string;
  readonly texts: readonly [string, string];
  /** Which of the two it speaks for; null where it speaks for neither, or is not known. */
  readonly better: 'first' | 'second' | null;
}

/** Differences smaller than this are written alike, so they speak for neither. */
const ALIKE = 0.05;

/** Everything that tells two pairs apart. */
export function sideBySide(first: Pair, second: Pair): Beside[] {
  const beside = (
    name: string,
    of: (pair: Pair) => number | null,
    write: (value: number, pair: Pair) => string,
    { less = false, alike = ALIKE } = {},
  ): Beside => {
    const [a, b] = [of(first), of(second)];
    const text = (value: number | null, pair: Pair) =>
      value === null ? 'not known' : write(value, pair);
    const ahead = a === null || b === null || Math.abs(a - b) < alike ? null : a > b !== less;
    return {
      name,
      texts: [text(a, first), text(b, second)],
      better: ahead === null ? null : ahead ? 'first' : 'second',
    };
  };
  const points = (value: number) => pointsText(value);
  const stops = ({ warnings }: Pair) =>
    warnings.filter(({ severity }) => severity === 'stop').length;
  return [
    beside(
      'worth, points',
      ({ worth }) => worth.points,
      (_, { worth }) => worthText(worth),
    ),
    ...first.worth.traits.map(({ trait }, t) =>
      beside(`${trait.name}, points`, ({ worth }) => worth.traits[t]?.points ?? null, points),
    ),
    ...first.worth.looks.map(({ label }, l) =>
      beside(`${label}, points`, ({ worth }) => worth.looks[l]?.points ?? null, points),
    ),
    beside('choosing the best, points', ({ worth }) => worth.choice, points),
    beside(
      'F of the brood',
      (pair) => pair.inbreedingCoefficient,
      (f) => percent(f),
      {
        less: true,
        alike: 0.00005,
      },
    ),
    beside(
      'chance that enough pass',
      ({ passing }) => passing.chance,
      (chance) => percent(chance, 0),
      {
        alike: 0.005,
      },
    ),
    beside('reasons to stop', stops, (count) => plainNumber(count, 0), { less: true, alike: 1 }),
  ];
}

/** What speaks for one of the two, in a line. */
export function speaksFor(first: Pair, second: Pair, which: 'first' | 'second'): string {
  const names = sideBySide(first, second)
    .filter(({ better }) => better === which)
    .map(({ name }) => name.replace(', points', ''));
  return names.length === 0 ? 'nothing here.' : `${names.join(', ')}.`;
}

/** Whether the two can be told apart in worth. */
export function differenceWords(
  first: Pair,
  second: Pair,
  {
    points,
    standardError,
    toldApart,
  }: { points: number; standardError: number; toldApart: boolean },
): string {
  const name = ({ sire, dam }: Pair) => `${sire.tag} by ${dam.tag}`;
  const size = `${plainNumber(Math.abs(points), 1)} ± ${plainNumber(standardError, 1)} points`;
  if (!toldApart)
    return `In worth the two cannot be told apart: they differ by ${size}. Choose by what else matters to you.`;
  const [better, other] = points > 0 ? [first, second] : [second, first];
  return `${name(better)} is worth more than ${name(other)}, by ${size}.`;
}
