import { wilsonInterval } from '@linewright/mating';
import type { Kind, Said } from './calibrate.js';
import { GENERATIONS, SETTINGS, type Outcome } from './compare.js';
import type { Scenario } from './scenarios.js';

/** Chances said between two tenths, and how often they came true. */
export interface Bin {
  readonly count: number;
  readonly said: number;
  readonly came: number;
  readonly low: number;
  readonly high: number;
}

const BINS = 10;

/** Chances by tenths; empty tenths are left out. */
export function binsOf(said: readonly Said[]): Bin[] {
  return Array.from({ length: BINS }, (_, k) =>
    said.filter(({ chance }) => Math.min(BINS - 1, Math.floor(chance * BINS)) === k),
  ).flatMap((list) => {
    if (list.length === 0) return [];
    const came = list.filter((one) => one.came).length;
    return [
      {
        count: list.length,
        said: list.reduce((sum, { chance }) => sum + chance, 0) / list.length,
        came: came / list.length,
        ...wilsonInterval(came, list.length),
      },
    ];
  });
}

const plain = (value: number, digits: number): string => value.toFixed(digits);
const withError = ([mean, error]: readonly [number, number], digits: number): string =>
  `${plain(mean, digits)} ± ${plain(error, digits)}`;
const percent = (share: number | null): string =>
  share === null ? '–' : `${(100 * share).toFixed(0)} %`;

function table(outcomes: readonly Outcome[]): string {
  const rows = outcomes.map(
    ({ strategy, gain, kinship, inbreeding, kept, shown, fry }) =>
      `| ${strategy} | ${withError(gain, 1)} | ${withError(kinship, 3)} | ${withError(inbreeding, 3)} | ${percent(kept)} | ${percent(shown)} | ${fry} |`,
  );
  return [
    '| strategy | points gained | mean kinship | mean F | wanted allele there | look in a tenth | young |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

/** Two means whose difference is within twice its error cannot be told apart. */
const sameGain = (a: Outcome, b: Outcome): boolean =>
  Math.abs(a.gain[0] - b.gain[0]) <= 2 * Math.hypot(a.gain[1], b.gain[1]);

/** In plain words: where a rule of thumb does as well as the plan, or better. */
export function verdict(outcomes: readonly Outcome[]): string {
  const [plan, allowed, ...thumbs] = outcomes as [Outcome, Outcome, ...Outcome[]];
  const sentences = thumbs.flatMap((one) => {
    const { strategy } = one;
    const tighter = one.kinship[0] - plan.kinship[0];
    const kin = `at ${plain(Math.abs(tighter), 3)} ${tighter > 0 ? 'more' : 'less'} kinship`;
    if (sameGain(plan, one)) return [`${strategy} gains as much, ${kin}`];
    return one.gain[0] > plan.gain[0] ? [`${strategy} gains more, ${kin}`] : [];
  });
  const best = thumbs.find(({ strategy }) => strategy === 'best by best')!;
  const beside = sameGain(allowed, best)
    ? 'which cannot be told apart from best by best'
    : `${allowed.gain[0] > best.gain[0] ? 'more' : 'less'} than best by best`;
  const more = `With 8 % allowed the plan gains ${plain(allowed.gain[0], 1)}, ${beside}, at a mean kinship of ${plain(allowed.kinship[0], 3)} against ${plain(best.kinship[0], 3)}.`;
  return sentences.length === 0
    ? `No rule of thumb gains as much as the plan here. ${more}`
    : `As well as the plan or better: ${sentences.join('; ')}. ${more}`;
}

const calibrationTable = (kinds: readonly Kind[]): string =>
  [
    '| what | said between | cases | said on average | came true | 95 % interval |',
    '| --- | --- | --- | --- | --- | --- |',
    ...kinds.flatMap(({ name, said }) =>
      binsOf(said).map(
        ({ count, said: mean, came, low, high }) =>
          `| ${name} | ${Math.floor(mean * 10) * 10} and ${Math.floor(mean * 10) * 10 + 10} % | ${count} | ${percent(mean)} | ${percent(came)} | ${percent(low)} to ${percent(high)} |`,
      ),
    ),
  ].join('\n');

export interface Results {
  readonly scenarios: readonly {
    readonly scenario: Scenario;
    readonly outcomes: readonly Outcome[];
  }[];
  readonly kinds: readonly Kind[];
  readonly lines: number;
  readonly cases: number;
  readonly monthsPerGeneration: number;
}

/** The page of docs/methods, whole: nothing in it is written by hand. */
export function pageOf({ scenarios, kinds, lines, cases, monthsPerGeneration }: Results): string {
  const { broods, fryPerBrood, kinshipRise } = SETTINGS;
  return `# The plan against rules of thumb

Written by \`npm run -s strategies\`; not edited by hand. ${lines.toLocaleString('en')} lines of each kind were simulated, of which the truth is known, with fixed
seeds: ${GENERATIONS} generations (about ${Math.round(GENERATIONS * monthsPerGeneration)} months), ${broods} broods of ${fryPerBrood} young each, all scored once. Every
strategy has the same fish, tanks and months, so only what it does with them differs. **The plan** is [contributions](contributions.md) of most estimated
worth with mean kinship rising by at most ${100 * kinshipRise} % a generation (a second row allows 8 %), or as little as it can, values estimated by [the full equations](breeding-values.md) from the simulated scores. **Best by best** pairs
by score alone, the best male to the best female and so on; **back to the best fish** puts the best of the other sex to the best fish by score there was, for three generations;
**least related** looks at kinship alone. Gains are true breeding values, in points; ± is the standard error.

${scenarios
  .map(
    ({ scenario, outcomes }) => `## ${scenario.name}

${scenario.about.charAt(0).toUpperCase()}${scenario.about.slice(1)}.

${table(outcomes)}

${verdict(outcomes)}`,
  )
  .join('\n\n')}

## Do chances come true?

${cases.toLocaleString('en')} cases of each kind: a true line was drawn and scored, a chance was said from the scores and carrier chances alone (400 simulations), and the true line took its course
once. Nearer to the diagonal is better; bars are 95 % intervals of what was counted.

![Chances said against how often they came true, by kind, near the diagonal](strategies-chances.svg)

${calibrationTable(kinds)}

## Weak points

- No cost of inbreeding is in it: strategies that inbreed pay for it in tanks, not here.
- Traits have many genes of small effect; all variances are known to whoever estimates; all young are scored.
- The plan does not look at carriers: an allele that nobody sees is kept only as far as it keeps all families.
`;
}
