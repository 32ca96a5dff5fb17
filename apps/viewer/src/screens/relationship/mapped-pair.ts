import type { NamedFish } from '../../api/named-fish.js';
import { sexWord } from '../../wording/words.js';

/** The answer names each pair once, row by row up to the diagonal; the drawing takes the whole square. */
export function wholeMatrix(triangle: readonly number[], size: number): Float64Array {
  const whole = new Float64Array(size * size);
  let k = 0;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++, k++) {
      const value = triangle[k] ?? 0;
      whole[row * size + column] = value;
      whole[column * size + row] = value;
    }
  }
  return whole;
}

type Mate = Pick<NamedFish, 'id' | 'tag' | 'sex'>;

/** Why two fish have no page as a pair, or null when they have. */
export function whyNoPair(a: Mate | undefined, b: Mate | undefined): string | null {
  if (a === undefined || b === undefined || a.id === b.id) return 'This is one fish.';
  for (const fish of [a, b]) {
    if (fish.sex !== 'MALE' && fish.sex !== 'FEMALE') {
      return `${fish.tag} is ${sexWord[fish.sex].toLowerCase()}: record its sex to look at the pair.`;
    }
  }
  return a.sex === b.sex ? `Both are ${a.sex === 'MALE' ? 'males' : 'females'}: no pair.` : null;
}

/** Address of the pair's page, sire first. */
export function pairPath(a: Mate | undefined, b: Mate | undefined): string | null {
  if (a === undefined || b === undefined || whyNoPair(a, b) !== null) return null;
  const [sire, dam] = a.sex === 'MALE' ? [a, b] : [b, a];
  return `/pair/${sire.id}/${dam.id}`;
}
