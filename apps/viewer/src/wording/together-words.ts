import type { Together } from '../api/merit.js';
import { againstText, decimalsFor } from './merit-words.js';
import { plainNumber } from './figures.js';

type Correlation = Together['correlations'][number];

export interface CorrelationBand {
  readonly correlation: number;
  /** Ends of the band of 95 in 100; null where it is not known how sure the figure is. */
  readonly low: number | null;
  readonly high: number | null;
}

/** Standard errors of a band of 95 in 100. */
const REACH = 1.96;

/** A correlation with its band, which ends at -1 and 1; null where there is none. */
export function bandOfCorrelation({
  correlation,
  standardError,
}: Pick<Correlation, 'correlation' | 'standardError'>): CorrelationBand | null {
  if (correlation === null) return null;
  if (standardError === null) return { correlation, low: null, high: null };
  return {
    correlation,
    low: Math.max(-1, correlation - REACH * standardError),
    high: Math.min(1, correlation + REACH * standardError),
  };
}

const figure = (correlation: number): string => plainNumber(correlation, 2);

/** A correlation as written, with its band. */
export const correlationText = ({ correlation, low, high }: CorrelationBand): string =>
  low === null || high === null
    ? `${figure(correlation)}; how sure this is, is not known`
    : `${figure(correlation)}, in 95 of 100 cases like this from ${figure(low)} to ${figure(high)}`;

/** Whether two traits are inherited together, in one sentence. */
export function togetherText(
  { verdict, correlations }: Pick<Together, 'verdict' | 'correlations'>,
  first: string,
  second: string,
): string {
  const [inherited] = correlations;
  const band = inherited === undefined ? null : bandOfCorrelation(inherited);
  const known = band === null ? '' : ` Correlation of what is inherited: ${correlationText(band)}.`;
  if (verdict === 'TOGETHER')
    return `Fish that pass on more of ${first} pass on more of ${second} as well.${known}`;
  if (verdict === 'AGAINST_EACH_OTHER')
    return `Fish that pass on more of ${first} pass on less of ${second}.${known}`;
  return `Cannot tell yet whether ${first} and ${second} are inherited together.${known}`;
}

/** What it means for whoever selects on the first; null while it cannot be told. */
export function selectingText(
  verdict: Together['verdict'],
  first: string,
  second: string,
): string | null {
  if (verdict === 'TOGETHER')
    return `If you select on ${first} alone, ${second} moves the same way.`;
  if (verdict === 'AGAINST_EACH_OTHER')
    return `If you select on ${first} alone, ${second} moves the other way: look at both before you choose.`;
  return null;
}

const partWord: Readonly<Record<string, string>> = {
  additive: 'What is inherited',
  permanent: 'What stays with a fish',
  brood: 'What a brood shares',
  place: 'Where they swim',
  scorer: 'Who scored',
  residual: 'All else',
};

/** A part of the model in which two traits go together. */
export const partOfTogether = (part: string): string => partWord[part] ?? part;

/** What a fish passes on of a trait by the scores of both, in one sentence. */
export const fromBothText = (
  trait: string,
  aboveLine: number,
  giveOrTake: number,
  unit: string | null,
): string =>
  `${trait}: its young are expected ${againstText(aboveLine, unit, giveOrTake, 'the line’s mean')}, give or take ${plainNumber(giveOrTake, decimalsFor(giveOrTake))}.`;
