import { chanceText } from './chances.js';
import { MONTH_DAYS, percent, plural } from './figures.js';

type Scheme = 'SIBLINGS' | 'BACK_TO_SIRE' | 'BACK_TO_DAM' | 'OUTCROSS_THEN_BACK' | 'TWO_SUB_LINES';

interface NamedRoute {
  readonly scheme: string;
  readonly fish: readonly { readonly tag: string }[];
  readonly broods: readonly PlannedBrood[];
}

interface Parent {
  readonly fish: { readonly tag: string } | null;
  readonly fromGeneration: number | null;
  readonly fromBrood: number | null;
}

interface PlannedBrood {
  readonly generation: number;
  readonly sire: Parent;
  readonly dam: Parent;
}

const ways: Readonly<Record<Scheme, (fish: readonly string[]) => string>> = {
  SIBLINGS: ([sire, dam]) => `${sire} × ${dam}, then brother × sister`,
  BACK_TO_SIRE: ([sire, dam]) => `${sire} × ${dam}, then daughters back to ${sire}`,
  BACK_TO_DAM: ([sire, dam]) => `${sire} × ${dam}, then sons back to ${dam}`,
  OUTCROSS_THEN_BACK: ([line, other, back]) => `Outcross ${line} × ${other}, then back to ${back}`,
  TWO_SUB_LINES: ([a, b, c, d]) => `${a} × ${b} and ${c} × ${d} apart, then crossed`,
};

/** "M-1 × F-2, then brother × sister". */
export const routeName = ({ scheme, fish, broods }: NamedRoute): string => {
  const name = ways[scheme as Scheme](fish.map(({ tag }) => tag));
  const apart = broods.filter(
    ({ generation }, k) => broods[k - 1]?.generation === generation,
  ).length;
  return scheme === 'TWO_SUB_LINES' ? `${name} after ${plural(apart, 'generation')}` : name;
};

const parentText = (
  { fish, fromGeneration, fromBrood }: Parent,
  young: string,
  one: boolean,
): string =>
  fish !== null
    ? fish.tag
    : `the best ${young} of generation ${fromGeneration ?? ''}${one ? '' : `, brood ${fromBrood ?? ''}`}`;

/** "3 generations, about 15 months"; `days`: of one generation, if known. */
export const timeText = (generations: number, days: number | null): string => {
  const text = plural(generations, 'generation');
  return days === null
    ? text
    : `${text}, about ${Math.round((generations * days) / MONTH_DAYS)} months`;
};

/** What is paired in each generation, in words. */
export const stepTexts = ({ broods }: NamedRoute): string[] => {
  const countOf = (generation: number): number =>
    broods.filter((brood) => brood.generation === generation).length;
  return broods.map(({ sire, dam }) => {
    const side = (parent: Parent, young: string): string =>
      parentText(parent, young, countOf(parent.fromGeneration ?? 0) < 2);
    return `${side(sire, 'male')} × ${side(dam, 'female')}`;
  });
};

/** Closer where it is nearly none or nearly all, and then neither 0 nor 100 % unless it is. */
const shareText = (share: number): string =>
  share < 0.01 || share > 0.99 ? chanceText(share) : percent(share, 0);

/** "7 of 10" for chances that are not nearly sure; in words where nothing was seen to happen, or all was. */
export const triesText = (chance: number, simulations: number): string => {
  if (chance === 0) return `not once in ${simulations.toLocaleString('en')} tries`;
  if (chance === 1) return `in all ${simulations.toLocaleString('en')} tries`;
  return shareText(chance);
};

interface Simulated {
  readonly chance: number;
  readonly simulations: number;
  readonly standardError: number;
  readonly low: number;
  readonly high: number;
}

/** A chance with how sure it is. */
export const sureChanceText = ({ chance, simulations, standardError, low, high }: Simulated) =>
  `${triesText(chance, simulations)}; standard error ${percent(standardError, 1)}, 95 % interval ${percent(low, 1)} to ${percent(high, 1)}`;

/** Young to raise on a route. */
export const fryText = (fry: number): string =>
  `${Math.round(fry).toLocaleString('en')} on average, to the target or the end`;

/** A chance below this, and a share of courses ended by the ceiling above it, are told as a doubt. Of our own choosing. */
const LITTLE = 0.1;

interface Doubted {
  readonly chance: number;
  readonly simulations: number;
  /** Share of the simulations. */
  readonly endedByCeiling: number;
}

/** Why not to rely on a route, in sentences: none where its simulations reached the target often enough. */
export const routeDoubts = ({ chance, simulations, endedByCeiling }: Doubted): string[] => [
  ...(chance >= LITTLE
    ? []
    : [
        `In its simulations this route ${chance === 0 ? 'never' : 'seldom'} reached its target: ${triesText(chance, simulations)}.`,
      ]),
  ...(endedByCeiling < LITTLE
    ? []
    : [
        `${shareText(endedByCeiling)} of its simulations ended early, because the young of every pair would have had an F above the ceiling.`,
      ]),
];
