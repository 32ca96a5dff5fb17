import { createHash, randomInt, timingSafeEqual } from 'node:crypto';

/** Letters and digits that nobody takes for one another. */
const LETTERS = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789';

/** Ten letters in two groups: some 49 bits, made anew at each start. */
export const firstStartCode = (): string => {
  const letters = Array.from({ length: 10 }, () => LETTERS[randomInt(LETTERS.length)]).join('');
  return `${letters.slice(0, 5)}-${letters.slice(5)}`;
};

const digest = (code: string): Buffer =>
  createHash('sha256')
    .update(code.toUpperCase().replace(/[^A-Z0-9]/g, ''))
    .digest();

/** However it is typed: capitals, blanks and hyphens do not count. The time taken tells nothing. */
export const sameCode = (given: string, code: string): boolean =>
  timingSafeEqual(digest(given), digest(code));
