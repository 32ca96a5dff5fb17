/** One thing in a file that cannot be taken as it stands, or should be looked at. */
export interface Fault {
  /** Line of the file, counted from 1. */
  readonly line: number;
  /** Header of the column; `null` when the whole row or file is meant. */
  readonly column: string | null;
  readonly code: string;
  /** What stands there; `null` when nothing does. */
  readonly value: string | null;
  readonly message: string;
  readonly remedy: string;
  /** What it was most likely meant to be, the likeliest first. */
  readonly offers?: readonly string[];
}

/** One wrong value, with the lines on which it stands. */
export interface FaultyValue {
  readonly value: string | null;
  readonly count: number;
  /** The first of them, at most {@link LINES_SHOWN}. */
  readonly lines: readonly number[];
  readonly message: string;
  readonly remedy: string;
  readonly offers: readonly string[];
}

/** All faults of one kind in one column: one cause, and mostly one answer. */
export interface Cause {
  readonly code: string;
  readonly column: string | null;
  readonly count: number;
  /** Different values, the most frequent first, at most {@link VALUES_SHOWN}. */
  readonly values: readonly FaultyValue[];
  readonly valueCount: number;
  /** Values of which exactly one thing is offered. */
  readonly offered: number;
}

export const LINES_SHOWN = 12;
export const VALUES_SHOWN = 50;

interface Gathering {
  readonly first: Fault;
  readonly lines: number[];
  count: number;
}

interface GatheredCause {
  readonly first: Fault;
  readonly values: Map<string, Gathering>;
  count: number;
}

/**
 * Groups faults by what lies behind them: the same code in the same column, and in it the same value.
 *
 * @param byLine codes whose faults are each about one row even where the value is the same, such as a tag that stands twice
 * @returns the causes, those with most faults first. Cost: linear in the faults, plus sorting the causes.
 */
export const groupFaults = (
  faults: readonly Fault[],
  byLine: ReadonlySet<string> = new Set(),
): Cause[] => {
  const causes = new Map<string, GatheredCause>();
  for (const fault of faults) {
    const key = `${fault.code}\n${fault.column ?? ''}`;
    const cause: GatheredCause = causes.get(key) ?? {
      first: fault,
      count: 0,
      values: new Map<string, Gathering>(),
    };
    causes.set(key, cause);
    cause.count += 1;
    const valueKey = byLine.has(fault.code)
      ? `line ${fault.line} ${fault.value}`
      : `value ${fault.value}`;
    const value = cause.values.get(valueKey);
    if (value === undefined)
      cause.values.set(valueKey, { first: fault, lines: [fault.line], count: 1 });
    else {
      value.count += 1;
      if (value.lines.length < LINES_SHOWN) value.lines.push(fault.line);
    }
  }
  return [...causes.values()]
    .map(({ first, count, values }) => {
      const all = [...values.values()];
      return {
        code: first.code,
        column: first.column,
        count,
        valueCount: all.length,
        offered: all.filter((one) => one.first.offers?.length === 1).length,
        values: all
          .toSorted((a, b) => b.count - a.count)
          .slice(0, VALUES_SHOWN)
          .map(({ first: one, lines, count: times }) => ({
            value: one.value,
            count: times,
            lines,
            message: one.message,
            remedy: one.remedy,
            offers: one.offers ?? [],
          })),
      };
    })
    .toSorted((a, b) => b.count - a.count);
};
