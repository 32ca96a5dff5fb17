import { percent, plainNumber, plural } from './figures.js';

type After = 'back' | 'within';

/** "Cross", "1st backcross", "2nd of brother × sister". */
export const generationName = (generation: number, after: After): string => {
  if (generation === 1) return 'Cross';
  const number = ordinal(generation - 1);
  return after === 'back' ? `${number} backcross` : `${number} brother × sister`;
};

/** The same where there is room for a word: "cross", "back 1". */
export const shortGenerationName = (generation: number, after: After): string =>
  generation === 1 ? 'cross' : `${after === 'back' ? 'back' : 'sibs'} ${generation - 1}`;

const ordinal = (n: number): string => `${n}${['st', 'nd', 'rd'][n - 1] ?? 'th'}`;

interface Return {
  readonly name: string;
  readonly lineMean: number;
  readonly partner: number;
  readonly lost: number;
  readonly backAfter: number | null;
}

/** What the cross costs of a trait, and when it is back, in a sentence. */
export const returnText = (
  { name, lineMean, partner, lost, backAfter }: Return,
  after: After,
): string =>
  `${name}: line ${plainNumber(lineMean, 1)}, partner ${plainNumber(partner, 1)}; ${lostText(lost, backAfter, after)}.`;

const lostText = (lost: number, backAfter: number | null, after: After): string => {
  if (lost <= 0 && backAfter === 0) return 'the cross is expected no worse than the line';
  const changed =
    lost > 0
      ? `the cross is expected ${plainNumber(lost, 1)} worse than the line`
      : 'the cross is no worse';
  if (backAfter === 0) return `${changed}, less than a tenth of the spread of the fish`;
  if (backAfter !== null)
    return `${changed}, and it is back after ${after === 'back' ? plural(backAfter, 'backcross', 'backcrosses') : plural(backAfter, 'generation')}`;
  return after === 'within'
    ? `${changed}, and it does not come back unless you choose for it`
    : `${changed}, and it is not back within 10 backcrosses, because the fish that the young go back to is itself below the line`;
};

const verdicts = {
  OUTCROSS: {
    title: 'Outcross',
    text: 'The line is heading for something it should not, and this outcross mends it.',
  },
  BRINGS: {
    title: 'It brings what is wanted',
    text: 'It brings a wanted allele that the line lacks, and in at least half of the simulated lines it stays.',
  },
  OTHER_PARTNER: {
    title: 'Look for another partner',
    text: 'The line needs new blood, but this outcross changes nothing that could not be chance.',
  },
  NOT_NOW: {
    title: 'Not now',
    text: 'An outcross costs type, and nothing that this one gives is needed yet.',
  },
} as const;

export type Verdict = keyof typeof verdicts;
export const verdictWords = (verdict: Verdict): { title: string; text: string } =>
  verdicts[verdict];

interface Point {
  readonly figure: string;
  readonly name: string;
  readonly without: number;
  readonly withIt: number;
}

/** A figure of the last generation without the outcross and with it, in words. */
export const pointText = ({ figure, name, without, withIt }: Point): string => {
  switch (figure) {
    case 'INBREEDING':
      return `mean F ${percent(without, 0)} without it, ${percent(withIt, 0)} with it`;
    case 'ALLELE':
      return `${name} still there in ${percent(without, 0)} of lines without it, ${percent(withIt, 0)} with it`;
    default:
      return `${name} ${plainNumber(without, 1)} without it, ${plainNumber(withIt, 1)} with it`;
  }
};

/** Whether a wanted allele is won, at risk, or neither, by what line and partner have of it. */
export const alleleText = (inLine: number, inPartner: number): string => {
  const shares = `${percent(inLine, 0)} in the line, ${percent(inPartner, 0)} in the partner`;
  if (inPartner > inLine + 0.05) return `won: ${shares}`;
  return inPartner < inLine - 0.05 ? `at risk: ${shares}` : `as before: ${shares}`;
};
