import { fieldError } from '../errors/request-error.js';

const SHORTEST_PASSWORD = 10;
/** So much of a password is judged: the time taken grows with the square of it. */
const JUDGED = 64;
/** From here on, of 0 to 4, it is "safely unguessable" on the scale of those who made the measure. */
const STRONG_ENOUGH = 3;

type Judge = (password: string, ownWords: string[]) => { score: number };
let judge: Promise<Judge> | null = null;

/** The lists of common passwords and words take memory: read when the first password is set. */
const loadJudge = async (): Promise<Judge> => {
  const { ZxcvbnFactory } = await import('@zxcvbn-ts/core');
  const common = await import('@zxcvbn-ts/language-common');
  const measure = new ZxcvbnFactory({
    dictionary: common.dictionary,
    graphs: common.adjacencyGraphs,
  });
  return (password, ownWords) => measure.check(password, ownWords);
};

/**
 * Refuses a password that is short, common or easily guessed; nothing is asked of any other machine. Some tens of
 * milliseconds for the longest, a tenth of a second for the first.
 *
 * @param name of the person, which is easily guessed in a password.
 * @throws RequestError `VALIDATION` of the field `password`.
 */
export const expectGoodPassword = async (password: string, name: string): Promise<void> => {
  if (password.length < SHORTEST_PASSWORD) {
    throw fieldError({
      field: 'password',
      message: `The password has ${password.length} characters: give at least ${SHORTEST_PASSWORD}.`,
    });
  }
  judge ??= loadJudge();
  const { score } = (await judge)(password.slice(0, JUDGED), [
    'linewright',
    name,
    ...name.split(/\s+/),
  ]);
  if (score >= STRONG_ENOUGH) return;
  throw fieldError({
    field: 'password',
    message:
      'This password is common or easily guessed: take three or four words that have nothing to do with each other.',
  });
};
