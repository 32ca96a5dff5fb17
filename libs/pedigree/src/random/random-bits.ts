/** A source of randomness: numbers from 0 up to but not 1, such as `Math.random` or a seeded one. */
export type Chance = () => number;

/**
 * A seeded stream of random bits: xoshiro128** 1.1 by Blackman & Vigna (ACM Trans. Math. Softw. 47:36, 2021), state filled by
 * Vigna's splitmix64 from the seed, as its authors advise. Fast, 2^128 - 1 long, and the same everywhere; not for secrets.
 *
 * @example
 * new RandomBits(1).next() === new RandomBits(1).next(); // true
 */
export class RandomBits {
  #a: number;
  #b: number;
  #c: number;
  #d: number;
  #word = 0;
  #left = 0;

  /** @param seed any safe integer. */
  constructor(seed: number) {
    [this.#a, this.#b, this.#c, this.#d] = stateFromSeed(seed);
  }

  /** A stream that starts from a given state (four 32-bit words, not all zero): for checks against published output. */
  static fromState(state: readonly [number, number, number, number]): RandomBits {
    const bits = new RandomBits(0);
    const [a, b, c, d] = state;
    [bits.#a, bits.#b, bits.#c, bits.#d] = [a | 0, b | 0, c | 0, d | 0];
    return bits;
  }

  /** The next 32 bits, as an unsigned integer. */
  next(): number {
    const product = Math.imul(this.#b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9) >>> 0;
    const shifted = this.#b << 9;
    this.#c ^= this.#a;
    this.#d ^= this.#b;
    this.#b ^= this.#c;
    this.#a ^= this.#d;
    this.#c ^= shifted;
    this.#d = (this.#d << 11) | (this.#d >>> 21);
    return result;
  }

  /** From 0 up to but not 1, in steps of 2^-32. */
  uniform(): number {
    return this.next() / 2 ** 32;
  }

  /** One fair coin: 0 or 1. */
  coin(): number {
    if (this.#left === 0) {
      this.#word = this.next();
      this.#left = 32;
    }
    this.#left--;
    const coin = this.#word & 1;
    this.#word >>>= 1;
    return coin;
  }
}

/** Uniform numbers from a seed, any safe integer; the same everywhere. */
export function seededChance(seed: number): Chance {
  const bits = new RandomBits(seed);
  return () => bits.uniform();
}

function stateFromSeed(seed: number): [number, number, number, number] {
  const mask = (1n << 64n) - 1n;
  let counter = BigInt.asUintN(64, BigInt(seed));
  const word = (): bigint => {
    counter = (counter + 0x9e3779b97f4a7c15n) & mask;
    let mixed = counter;
    mixed = ((mixed ^ (mixed >> 30n)) * 0xbf58476d1ce4e5b9n) & mask;
    mixed = ((mixed ^ (mixed >> 27n)) * 0x94d049bb133111ebn) & mask;
    return mixed ^ (mixed >> 31n);
  };
  const [first, second] = [word(), word()];
  const half = (value: bigint): number => Number(BigInt.asIntN(32, value));
  return [half(first), half(first >> 32n), half(second), half(second >> 32n)];
}
