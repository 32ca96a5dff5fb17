import { inbreedingBand } from '@linewright/mating';
import { percent, plural } from './figures.js';

type BandId = ReturnType<typeof inbreedingBand>['id'];

const bandWord: Record<BandId, string> = {
  none: 'none on record',
  slight: 'under first cousins',
  cousins: 'first cousins up to half sibs',
  'half-siblings': 'half sibs up to full sibs',
  'full-siblings': 'full sibs or closer',
};

/** A band of F in a few words, named by the matings of unrelated stock at its two ends. */
export function bandText(inbreeding: number): string {
  return bandWord[inbreedingBand(inbreeding).id];
}

/** The band as the end of a sentence: "at least that of a half-sib mating, below that of a full-sib mating". */
export function bandSentence(inbreeding: number): string {
  return inbreedingBand(inbreeding).text;
}

interface LineWithYoung {
  readonly fish: number;
  readonly keep: number;
  readonly now: number;
  readonly ofYoung: number;
  readonly after: number;
}

/** Kinships that read alike as percentages are told as unchanged. */
const ALIKE = 0.00005;

/** What the young of a pair do to the mean kinship of their line. */
export function lineWithYoungWords({ fish, keep, now, ofYoung, after }: LineWithYoung): string {
  const change =
    Math.abs(after - now) < ALIKE
      ? `stays at ${percent(now)}`
      : `${after > now ? 'rises' : 'falls'} from ${percent(now)} to ${percent(after)}`;
  return `The line: with ${plural(keep, 'young', 'young')} of this pair kept beside its ${fish} fish in use, mean kinship ${change}, each fish with itself included. A young’s mean kinship with the line is ${percent(ofYoung)}.`;
}

const dominanceWords: Readonly<Record<string, string>> = {
  complete: 'complete: one copy of the dominant allele is enough',
  incomplete: 'incomplete: a fish with one of each looks like neither',
  dose: 'by dose: two copies show more than one',
  variable: 'variable: it shows unevenly',
  polygenic: 'many genes together',
  'sex-determining': 'decides the sex',
  unknown: 'not known',
};

export function dominanceText(dominance: string): string {
  return dominanceWords[dominance] ?? dominance;
}

/** How far a locus may be trusted, gravest doubt last. */
export const confidenceWord: Readonly<Record<string, string>> = {
  established: 'shown by published crosses',
  molecular: 'shown by a genetic study',
  practice: 'breeders’ practice, no counts seen',
  disputed: 'disputed',
  own: 'your own definition',
};

export function confidenceText(confidence: string): string {
  return confidenceWord[confidence] ?? confidence;
}

export const severitiesInOrder = ['stop', 'caution', 'note'] as const;
export type Severity = (typeof severitiesInOrder)[number];

export function toSeverity(text: string): Severity {
  return severitiesInOrder.find((each) => each === text.toLowerCase()) ?? 'caution';
}
