import { MeritError } from './merit-error.js';

/** One line of a score sheet: a trait, the weight a person gave it, and the values that earn nothing and everything. */
export interface SheetLine {
  readonly trait: string;
  /** The weight a person gave it, 0 or more; `null` on every line: all count alike. */
  readonly weight: number | null;
  /** Value that earns nothing and value that earns all; `null`: the line is scored but does not count. */
  readonly noneAt: number | null;
  readonly fullAt: number | null;
}

/** A fault seen, with the points its class takes away; `null`: the person has set none. */
export interface SeenFault {
  readonly name: string;
  readonly disqualifying: boolean;
  readonly points: number | null;
}

/** What one line added to the total. */
export interface SheetPart {
  readonly trait: string;
  readonly value: number | null;
  /** Share of the line earned, 0 to 1; `null`: not scored, or not counted. */
  readonly share: number | null;
  readonly weight: number;
  /** Points out of 100 that it added. */
  readonly points: number;
}

export interface SheetTotal {
  /** 0 to 100 after faults; `null` when no counted line was scored. */
  readonly total: number | null;
  readonly beforeFaults: number | null;
  readonly deducted: number;
  readonly disqualified: boolean;
  /** Counted lines without a score: the total is then of the rest, and not to be compared with a full one. */
  readonly missing: readonly string[];
  readonly parts: readonly SheetPart[];
}

const expectLine = (line: SheetLine): void => {
  const numbers = [line.weight, line.noneAt, line.fullAt].filter((n) => n !== null);
  const whole = numbers.every(Number.isFinite) && (line.weight ?? 0) >= 0;
  if (whole && (line.noneAt === null || line.noneAt !== line.fullAt)) return;
  throw new MeritError(
    'MERIT_BAD_SHEET',
    `The line of ${line.trait} cannot be counted: weights are 0 or more, and nothing and everything are earned at two different values.`,
    { trait: line.trait },
  );
};

const shareOf = (line: SheetLine, value: number | undefined): number | null => {
  if (value === undefined || line.noneAt === null || line.fullAt === null) return null;
  const share = (value - line.noneAt) / (line.fullAt - line.noneAt);
  return Math.min(1, Math.max(0, share));
};

/**
 * Total of a score sheet by the person's own weights: each counted line earns a share of its weight, in proportion from
 * `noneAt` to `fullAt` and no more; the shares are weighted and brought to 100; then the faults' points are taken off, down
 * to 0. No weight, level or deduction comes from here: where the person set no weight all lines count alike, and where no points
 * were set a fault takes none.
 *
 * Deducting by class of fault is common practice of shows; no source is followed.
 *
 * @param values the score of each trait, in its unit, as far as scored.
 * @throws MeritError MERIT_BAD_SHEET; MERIT_NOT_A_NUMBER.
 * @returns the total with what makes it up; cost linear.
 * @example sheetTotal([{ trait: 'spread', weight: null, noneAt: 120, fullAt: 180 }], new Map([['spread', 165]]), []).total // 75
 */
export const sheetTotal = (
  lines: readonly SheetLine[],
  values: ReadonlyMap<string, number>,
  faults: readonly SeenFault[],
): SheetTotal => {
  lines.forEach(expectLine);
  for (const [trait, value] of values)
    if (!Number.isFinite(value))
      throw new MeritError('MERIT_NOT_A_NUMBER', `${trait}: "${value}" is not a number.`);
  const weighted = lines.some((line) => line.weight !== null);
  const counted = lines.map((line) => {
    const counts = line.noneAt !== null && line.fullAt !== null;
    const value = values.get(line.trait);
    const weight = counts ? (weighted ? (line.weight ?? 0) : 1) : 0;
    return { trait: line.trait, value: value ?? null, share: shareOf(line, value), weight };
  });
  const scored = counted.filter((line) => line.share !== null && line.weight > 0);
  const whole = scored.reduce((total, line) => total + line.weight, 0);
  const parts = counted.map((line) => ({
    ...line,
    points: line.share === null || whole === 0 ? 0 : (100 * line.share * line.weight) / whole,
  }));
  const beforeFaults = whole === 0 ? null : parts.reduce((total, part) => total + part.points, 0);
  const deducted = faults.reduce((total, fault) => total + (fault.points ?? 0), 0);
  return {
    total: beforeFaults === null ? null : Math.max(0, beforeFaults - deducted),
    beforeFaults,
    deducted,
    disqualified: faults.some((fault) => fault.disqualifying),
    missing: counted
      .filter((line) => line.weight > 0 && line.share === null)
      .map((line) => line.trait),
    parts,
  };
};
