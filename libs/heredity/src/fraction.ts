import { HeredityError } from './heredity-error.js';

/** An exact rational number in lowest terms; `denominator` is always positive. */
export interface Fraction {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/**
 * What may be given where an exact number is wanted: a fraction, a whole number, text such as `"3/16"`, `"0.05"` or `"2"`,
 * or a decimal number (read as the decimal it prints as: `0.1` is exactly 1/10).
 */
export type FractionInput = Fraction | number | string | bigint;

export const ZERO: Fraction = Object.freeze({ numerator: 0n, denominator: 1n });
export const ONE: Fraction = Object.freeze({ numerator: 1n, denominator: 1n });
export const HALF: Fraction = Object.freeze({ numerator: 1n, denominator: 2n });

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** The fraction `numerator / denominator` in lowest terms. Throws `FRACTION_INVALID` for a zero denominator. */
export function fraction(numerator: bigint | number, denominator: bigint | number = 1n): Fraction {
  if (
    (typeof numerator === 'number' && !Number.isSafeInteger(numerator)) ||
    (typeof denominator === 'number' && !Number.isSafeInteger(denominator))
  ) {
    throw new HeredityError(
      'FRACTION_INVALID',
      `A fraction needs whole numbers above and below the line, not ${String(numerator)}/${String(denominator)}.`,
    );
  }
  let above = BigInt(numerator);
  let below = BigInt(denominator);
  if (below === 0n) {
    throw new HeredityError('FRACTION_INVALID', 'A fraction cannot have zero below the line.');
  }
  if (below < 0n) {
    above = -above;
    below = -below;
  }
  const divisor = greatestCommonDivisor(above, below);
  return divisor === 1n
    ? { numerator: above, denominator: below }
    : { numerator: above / divisor, denominator: below / divisor };
}

const FRACTION_TEXT = /^\s*([+-]?\d+)\s*\/\s*(\d+)\s*$/;
const DECIMAL_TEXT = /^\s*([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,3}))?\s*$/;

/** Reading the digits takes time that grows with their square. */
const LONGEST_TEXT = 4_000;

function parseText(text: string): Fraction {
  if (text.length > LONGEST_TEXT) {
    throw new HeredityError(
      'FRACTION_INVALID',
      `A number of ${String(text.length)} letters is too long: write it with ${String(LONGEST_TEXT)} at most.`,
      { length: text.length },
    );
  }
  const ratio = FRACTION_TEXT.exec(text);
  if (ratio) return fraction(BigInt(ratio[1] ?? '0'), BigInt(ratio[2] ?? '1'));
  const decimal = DECIMAL_TEXT.exec(text);
  const whole = decimal?.[2] ?? '';
  const places = decimal?.[3] ?? '';
  if (!decimal || whole + places === '') {
    throw new HeredityError(
      'FRACTION_INVALID',
      `"${text}" is not a number or a fraction. Write for example 3/16, 0.1875 or 2.`,
      { value: text },
    );
  }
  const exponent = Number(decimal[4] ?? '0') - places.length;
  const digits = BigInt(whole + places) * (decimal[1] === '-' ? -1n : 1n);
  return exponent >= 0
    ? fraction(digits * 10n ** BigInt(exponent))
    : fraction(digits, 10n ** BigInt(-exponent));
}

/** Reads any {@link FractionInput} exactly. Throws `FRACTION_INVALID`. */
export function toFraction(input: FractionInput): Fraction {
  if (typeof input === 'bigint') return { numerator: input, denominator: 1n };
  if (typeof input === 'string') return parseText(input);
  if (typeof input === 'number') {
    if (!Number.isFinite(input)) {
      throw new HeredityError('FRACTION_INVALID', `${String(input)} is not a finite number.`);
    }
    return Number.isSafeInteger(input)
      ? { numerator: BigInt(input), denominator: 1n }
      : parseText(String(input));
  }
  return fraction(input.numerator, input.denominator);
}

/** Reads a probability: {@link toFraction}, and 0 <= p <= 1, else `PROBABILITY_OUT_OF_RANGE`. */
export function toProbability(input: FractionInput, name = 'probability'): Fraction {
  const value = toFraction(input);
  if (value.numerator < 0n || value.numerator > value.denominator) {
    throw new HeredityError(
      'PROBABILITY_OUT_OF_RANGE',
      `The ${name} is ${formatFraction(value)}; it must lie between 0 and 1. A percentage has to be divided by 100.`,
      { name, value: formatFraction(value) },
    );
  }
  return value;
}

export function addFractions(a: Fraction, b: Fraction): Fraction {
  return fraction(
    a.numerator * b.denominator + b.numerator * a.denominator,
    a.denominator * b.denominator,
  );
}

export function subtractFractions(a: Fraction, b: Fraction): Fraction {
  return fraction(
    a.numerator * b.denominator - b.numerator * a.denominator,
    a.denominator * b.denominator,
  );
}

export function multiplyFractions(a: Fraction, b: Fraction): Fraction {
  return fraction(a.numerator * b.numerator, a.denominator * b.denominator);
}

export function divideFractions(a: Fraction, b: Fraction): Fraction {
  return fraction(a.numerator * b.denominator, a.denominator * b.numerator);
}

/** Negative, zero or positive as `a` is below, equal to or above `b`. */
export function compareFractions(a: Fraction, b: Fraction): number {
  const difference = a.numerator * b.denominator - b.numerator * a.denominator;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

export function sumFractions(values: Iterable<Fraction>): Fraction {
  let above = 0n;
  let below = 1n;
  for (const value of values) {
    if (value.denominator === below) above += value.numerator;
    else {
      // Over the least common denominator: the product of many would fill pages.
      const divisor = greatestCommonDivisor(below, value.denominator);
      const scale = value.denominator / divisor;
      above = above * scale + value.numerator * (below / divisor);
      below *= scale;
    }
  }
  return fraction(above, below);
}

const SAFE = 1n << 53n;

/** The nearest double, also where numerator and denominator are far beyond the range of a double. */
export function fractionToNumber(value: Fraction): number {
  const { numerator, denominator } = value;
  const size = numerator < 0n ? -numerator : numerator;
  if (size <= SAFE && denominator <= SAFE) return Number(numerator) / Number(denominator);
  if (size === 0n) return 0;
  // Scale so that the integer quotient keeps 64 or more significant bits, then undo the scale in two halves: one factor
  // of 2^-1100 would underflow by itself.
  const shift = 64 + denominator.toString(2).length - size.toString(2).length;
  const quotient =
    shift >= 0 ? (size << BigInt(shift)) / denominator : size / (denominator << BigInt(-shift));
  const half = Math.trunc(-shift / 2);
  const magnitude = Number(quotient) * 2 ** half * 2 ** (-shift - half);
  return numerator < 0n ? -magnitude : magnitude;
}

/** `"9/16"`, or `"1"` for a whole number. */
export function formatFraction(value: Fraction): string {
  return value.denominator === 1n
    ? value.numerator.toString()
    : `${value.numerator.toString()}/${value.denominator.toString()}`;
}

/**
 * The smallest whole-number ratio with the proportions of `values`, as text: 9/16, 3/8 ... gives `"9:6:1"`.
 * Zeros stay zero.
 */
export function ratioText(values: readonly Fraction[]): string {
  let common = 1n;
  for (const v of values)
    common = (common / greatestCommonDivisor(common, v.denominator)) * v.denominator;
  const scaled = values.map((v) => (v.numerator * common) / v.denominator);
  let divisor = 0n;
  for (const s of scaled) divisor = greatestCommonDivisor(divisor, s);
  return scaled.map((s) => (divisor === 0n ? s : s / divisor).toString()).join(':');
}
