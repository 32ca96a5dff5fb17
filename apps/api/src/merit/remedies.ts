import type { MeritError, MeritErrorCode } from '@linewright/merit';

/** Why an estimate cannot be made: a code of the library, as GraphQL names it. */
export const MeritRefusalCode: { readonly [Code in MeritErrorCode]: Code } = {
  MERIT_NOT_A_NUMBER: 'MERIT_NOT_A_NUMBER',
  MERIT_OUT_OF_RANGE: 'MERIT_OUT_OF_RANGE',
  MERIT_TOO_FEW: 'MERIT_TOO_FEW',
  MERIT_BAD_SHEET: 'MERIT_BAD_SHEET',
  MERIT_LENGTH_MISMATCH: 'MERIT_LENGTH_MISMATCH',
  MERIT_NO_VARIATION: 'MERIT_NO_VARIATION',
  MERIT_NOT_SEPARABLE: 'MERIT_NOT_SEPARABLE',
  MERIT_NOT_DEFINITE: 'MERIT_NOT_DEFINITE',
  MERIT_TOO_LARGE: 'MERIT_TOO_LARGE',
  MERIT_NOT_CONVERGED: 'MERIT_NOT_CONVERGED',
};

/** What to do about it, in the words of a fish room. */
export const remedies: Readonly<Record<MeritErrorCode, string>> = {
  MERIT_NOT_A_NUMBER: 'Find the score that is not a number, and correct or withdraw it.',
  MERIT_OUT_OF_RANGE: 'Look at the settings of this trait: one of them cannot be met.',
  MERIT_TOO_FEW:
    'Score more fish, of several broods; or take parts out of the settings of this trait.',
  MERIT_BAD_SHEET: 'Correct the score sheet.',
  MERIT_LENGTH_MISMATCH: 'Reload the page; if it comes again, tell whoever keeps this install.',
  MERIT_NO_VARIATION:
    'All scores are alike. Score fish that differ, or measure the trait on a finer scale.',
  MERIT_NOT_SEPARABLE:
    'Score relatives of several pairs (sibs, half sibs, parents with their young), or take a part out of the settings of this trait.',
  MERIT_NOT_DEFINITE: 'Check whether some scores were written in other units.',
  MERIT_TOO_LARGE: 'Take parts out of the settings of this trait: fewer parts need less memory.',
  MERIT_NOT_CONVERGED:
    'Take a part out of the settings of this trait: some season or sex has fish of one grade only.',
};

const termWords: Readonly<Record<string, string>> = {
  additive: 'what is inherited',
  permanent: 'what stays with a fish from look to look',
  brood: 'what a brood shares',
  place: 'what a place does',
  scorer: 'what a scorer does',
  residual: 'the rest',
};

/** A refusal in the words of a screen: a library names the terms of its model. */
export const plainMessage = ({ code, message, data }: MeritError): string => {
  const terms = data['terms'];
  if (code !== 'MERIT_NOT_SEPARABLE' || !Array.isArray(terms)) return message;
  const words = terms.map((name: string) => termWords[name] ?? name);
  return `These scores cannot tell apart ${words.slice(0, -1).join(', ')} and ${words.at(-1)}.`;
};
