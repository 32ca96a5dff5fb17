import { plainNumber, plural } from './figures.js';
import type { EnumValues } from './words.js';

export interface Range {
  readonly low: number;
  readonly high: number;
}

/** So many decimals that what is uncertain shows one or two digits: give or take 9, 2.4, 0.31. */
export function decimalsFor(uncertain: number): number {
  const size = Math.abs(uncertain);
  if (!(size > 0) || !Number.isFinite(size)) return 2;
  return Math.min(4, Math.max(0, size >= 5 ? 0 : 1 - Math.floor(Math.log10(2 * size))));
}

const withUnit = (figure: string, unit: string | null): string =>
  unit === null || unit === '' ? figure : `${figure} ${unit}`;

/** A size with its unit, written as finely as it is known. */
export const sizeText = (value: number, unit: string | null, uncertain: number): string =>
  withUnit(plainNumber(Math.abs(value), decimalsFor(uncertain)), unit);

/** A difference with its sign and unit: "+6 degrees", "0 degrees". */
export function signedText(value: number, unit: string | null, uncertain = value): string {
  const figure = plainNumber(value, decimalsFor(uncertain));
  if (Number(figure) === 0) return withUnit('0', unit);
  return withUnit(value > 0 ? `+${figure}` : figure, unit);
}

/** "6 degrees above the line’s mean", "at the line’s mean". */
export function againstText(
  value: number,
  unit: string | null,
  uncertain: number,
  whose: string,
): string {
  const size = plainNumber(Math.abs(value), decimalsFor(uncertain));
  if (Number(size) === 0) return `at ${whose}`;
  return `${withUnit(size, unit)} ${value > 0 ? 'above' : 'below'} ${whose}`;
}

export interface PassedOn {
  /** How far its young are expected from the line’s mean, with a partner of the line’s mean. */
  readonly expected: number;
  /** In four of five cases the mean of its young lies within so much of it. */
  readonly giveOrTake: number;
  readonly unit: string | null;
  readonly ownScores: number;
  /** Other fish whose scores count. */
  readonly relatives: number;
}

/** What a fish passes on, in one sentence. */
export function passesOnText({
  expected,
  giveOrTake,
  unit,
  ownScores,
  relatives,
}: PassedOn): string {
  const where = againstText(expected, unit, giveOrTake, 'the line’s mean');
  const size = plainNumber(giveOrTake, decimalsFor(giveOrTake));
  return `Its young are expected ${where}, give or take ${size}; ${restsOnText(ownScores, relatives)}.`;
}

export function restsOnText(ownScores: number, relatives: number): string {
  const own =
    ownScores === 0 ? null : ownScores === 1 ? 'its own score' : `its own ${ownScores} scores`;
  const kin = relatives === 0 ? null : `scores of ${plural(relatives, 'relative')}`;
  if (own === null && kin === null) return 'no score of it or a relative says anything yet';
  return `this rests on ${[own, kin].filter((part) => part !== null).join(' and ')}`;
}

/** A place among the best quarter is where trust in one fish is dearest. */
const isAmongBest = ({ place, of }: { place: number; of: number }): boolean => place <= of / 4;

/** Why the young of a good fish are expected to be less good than it is; null where nothing tempts to trust it too much. */
export function trustText({
  inLine,
  ownScore,
  expected,
}: {
  readonly inLine: { readonly place: number; readonly of: number } | null;
  /** Its own mean score as written; null where it was not scored. */
  readonly ownScore: string | null;
  /** Where its young are expected, as written: "6 degrees above the line’s mean". */
  readonly expected: string;
}): string | null {
  if (inLine === null || ownScore === null || !isAmongBest(inLine)) return null;
  return `It stands ${inLine.place} of ${inLine.of} in its line and scored ${ownScore}, but do not trust one good fish too much. A good score is partly good rearing, a good day and luck, which its young do not inherit; and they get half of what they do inherit from their other parent. So they are expected ${expected}, closer to that mean than the fish itself.`;
}

/** A part of a whole in whole percent, never 0 or 100 where it is not. */
export function partText(share: number): string {
  if (share > 0 && share < 0.005) return 'under 1 %';
  if (share < 1 && share > 0.995) return 'over 99 %';
  return `${Math.round(100 * share)} %`;
}

/** What heritability is, once, where it stands first. */
export const HERITABILITY_MEANING =
  'Fish of one age and sex differ, partly because of what they inherited and partly because of food, water, the jar and the day. Heritability is the inherited part of these differences: at 0 % the young of good and poor parents come out the same; at 100 % they stand where their parents stood.';

/** How wide the answer still is. */
export const heritabilityText = (mean: number, { low, high }: Range): string =>
  `About ${partText(mean)} of the differences between your fish is inherited. In 95 of 100 cases like this it lies between ${partText(low)} and ${partText(high)}.`;

/** How much of the answer came with what was assumed. */
export function fromPriorText(share: number): string {
  const part = partText(share);
  if (share > 0.95)
    return `Your scores say almost nothing of it yet: ${part} of what is known here was assumed before.`;
  if (share > 0.6)
    return `Most of this was assumed before: ${part} of what is known here. Your scores gave the rest.`;
  if (share > 0.4)
    return `About half of this was assumed before (${part}); your scores gave the other half.`;
  return `Most of this comes from your scores; ${part} of what is known here was assumed before.`;
}

/** What a single estimate at the edge of its range does not prove. */
export const atEdgeText = (heritability: number): string =>
  heritability > 0
    ? 'These scores show nothing else, which is not proof that there is nothing else.'
    : 'These scores show none, which is not proof that there is none.';

/** Whether a line moves: from the means of what its first and last generation pass on. */
export interface Moved {
  readonly change: number;
  /** Half the width of a band of 95 in 100 for the change. */
  readonly giveOrTake: number;
  readonly generations: number;
}

/**
 * From the first generation to the last. Errors of the two are added as if they had nothing in common: related generations share theirs,
 * so this is rather too careful than too bold.
 */
export function movedBetween(
  means: readonly { readonly mean: number; readonly half: number | null }[],
): Moved | null {
  const [first, last] = [means[0], means.at(-1)];
  if (first === undefined || last === undefined || first === last) return null;
  return {
    change: last.mean - first.mean,
    giveOrTake: Math.hypot(first.half ?? 0, last.half ?? 0),
    generations: means.length - 1,
  };
}

/** Whether a line moves, and which way the person wants. */
export function movedText(
  { change, giveOrTake, generations }: Moved,
  unit: string | null,
  higherIsBetter: boolean | null,
): string {
  const size = `${signedText(change, unit, giveOrTake)} in ${plural(generations, 'generation')}, give or take ${sizeText(giveOrTake, null, giveOrTake)}`;
  if (Math.abs(change) <= giveOrTake)
    return `Cannot tell yet whether the line is moving: what its fish pass on changed by ${size}.`;
  const wanted =
    higherIsBetter === null
      ? ''
      : change > 0 === higherIsBetter
        ? ', the way you want'
        : ', away from what you want';
  return `The line is moving${wanted}: what its fish pass on changed by ${size}.`;
}

export type LoadVerdict = EnumValues<'LoadVerdict'>;

/** What inbreeding costs at an F, as a share of the young, out of its rate. */
export const costAt = (perGamete: number, inbreeding: number): number =>
  -Math.expm1(-perGamete * inbreeding);

export interface Cost extends Range {
  readonly verdict: LoadVerdict;
  readonly perGamete: number;
  /** The smallest rate that these broods would have shown; null where they could show none. */
  readonly smallest: number | null;
}

/** As it would be in a brood of full sibs, which breeders know. */
const SIB_MATING = 0.25;

/** What inbreeding costs, in one sentence: never that it costs nothing. */
export function costText({ verdict, perGamete, low, high }: Cost, what: string): string {
  const share = (rate: number): string => partText(Math.max(0, costAt(rate, SIB_MATING)));
  const between = `between ${share(low)} and ${share(high)} of the young in 95 of 100 cases`;
  if (verdict === 'COSTS')
    return `Inbreeding costs ${what}: about ${share(perGamete)} in a brood of full sibs (F 25 %), ${between}.`;
  if (verdict === 'HELPS')
    return `The more inbred broods did better in ${what}. Inbreeding hardly does that by itself: look whether later broods were also kept better.`;
  return `Cannot tell yet what inbreeding costs in ${what}: in a brood of full sibs (F 25 %) it may cost ${between}. That is not a sign that it costs nothing.`;
}

/** What these broods could have shown at all. */
export function smallestText(smallest: number | null): string {
  if (smallest === null)
    return 'These broods could not have shown any cost: they differ too little in F.';
  return `The smallest cost that these broods would probably have shown is ${partText(costAt(smallest, SIB_MATING))} in a brood of full sibs. A smaller one may be there unseen.`;
}

export interface SizeChange extends Range {
  readonly verdict: EnumValues<'ChangeVerdict'>;
  /** At an F of 25 % against none: in the unit of the trait, or as a share. */
  readonly atSibMating: number;
  readonly smallest: number;
}

/** How a change of a size is written. */
export type ChangeWords = (change: number) => string;

export const shareChange: ChangeWords = (change) => {
  const part = Math.round(100 * change);
  return part > 0 ? `+${part} %` : `${part} %`;
};

/** What inbreeding does to a size, in one sentence: never that it does nothing. */
export function sizeChangeText(
  { verdict, atSibMating, low, high }: SizeChange,
  what: string,
  words: ChangeWords,
): string {
  const between = `between ${words(low)} and ${words(high)} in 95 of 100 cases`;
  if (verdict === 'LOWERS')
    return `Inbreeding lowers ${what}: by about ${words(atSibMating)} at an F of 25 %, as in young of full sibs; ${between}.`;
  if (verdict === 'RAISES')
    return `The more inbred, the larger ${what}. Inbreeding hardly does that by itself: look whether later broods were also kept better.`;
  return `Cannot tell yet what inbreeding does to ${what}: at an F of 25 %, as in young of full sibs, the change may lie ${between}. That is not a sign that it does nothing.`;
}

/** What these broods could have shown at all: a loss is told without a sign. */
export const smallestChangeText = (smallest: number, words: ChangeWords): string =>
  `The smallest loss that these broods would probably have shown is ${lossText(smallest, words)} at an F of 25 %. A smaller one may be there unseen.`;

export const lossText = (loss: number, words: ChangeWords): string =>
  words(-loss).replace(/^[-−]/, '');
