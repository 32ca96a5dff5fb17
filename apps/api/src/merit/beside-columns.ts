import { daysBetween } from '@linewright/care';
import type { LookRow } from '../stock/merit-rows.js';
import type { TraitKind } from '../graphql/enums.js';
import { levelsOf } from './level-column.js';
import type { LevelColumn, NumberColumn } from './merit-task.js';

/** An own trait that scores of another are corrected for, with its looks under its present version. */
export interface BesideTrait {
  readonly id: string;
  readonly name: string;
  readonly kind: TraitKind;
  readonly looks: readonly LookRow[];
}

/** What became of a trait that was to be corrected for. */
export interface BesideNoted {
  readonly trait: BesideTrait;
  readonly fitted: boolean;
  readonly whyNot: string | null;
  /** Levels it was taken in; 0 for one that was taken as a number. */
  readonly levels: number;
  /** Looks at fish that have no score of it: a level of their own, or the mean of the numbers. */
  readonly looksWithout: number;
}

export interface BesideColumns {
  readonly fixed: readonly LevelColumn[];
  readonly numbers: readonly NumberColumn[];
  readonly noted: readonly BesideNoted[];
}

/** Level of fish without a score of the other trait. */
const NOT_SCORED = 'not scored';
/** Names of the columns that every trait may have. */
const TAKEN = new Set(['season', 'sex', 'age', 'brood', 'place', 'scorer']);

/**
 * Columns of own traits: of each row, the look at the same fish that is nearest in time.
 *
 * @param brood of each row: a trait that only tells broods apart is left out.
 */
export const besideColumns = (
  rows: readonly LookRow[],
  traits: readonly BesideTrait[],
  brood: LevelColumn,
): BesideColumns => {
  const fixed: LevelColumn[] = [];
  const numbers: NumberColumn[] = [];
  const noted = traits.map((trait): BesideNoted => {
    const values = nearestOf(rows, trait.looks);
    const known = values.filter((value) => value !== null);
    const name = TAKEN.has(trait.name.toLowerCase()) ? `${trait.name} (trait)` : trait.name;
    const told = { trait, looksWithout: values.length - known.length };
    if (trait.kind === 'yes_no' || trait.kind === 'ordinal') {
      const levels = values.map((value) => levelText(trait.kind, value));
      const column = levelsOf(name, levels);
      const whyNot = known.length === 0 ? NONE : whyNoLevels(column, brood);
      if (whyNot === null) fixed.push(column);
      return { ...told, fitted: whyNot === null, whyNot, levels: column.levels.length };
    }
    const one = new Set(known).size < 2 ? 'All looks are at one value of it.' : null;
    const whyNot = known.length === 0 ? NONE : one;
    if (whyNot === null) numbers.push({ name, ...fromMean(values, known) });
    return { ...told, fitted: whyNot === null, whyNot, levels: 0 };
  });
  return { fixed, numbers, noted };
};

const NONE = 'No fish that counts here has a score of it.';

/** As with a season: what is one for each brood says nothing that the brood does not say. */
const whyNoLevels = ({ levels, codes }: LevelColumn, brood: LevelColumn): string | null => {
  if (levels.length < 2) return 'All looks are at one level of it.';
  const ofBrood = new Map<number, number>();
  const varies = codes.some((code, row) => {
    const at = brood.codes[row]!;
    const first = ofBrood.get(at) ?? code;
    ofBrood.set(at, first);
    return at < 0 || first !== code;
  });
  return varies || levels.length < ofBrood.size
    ? null
    : 'Each brood is at a level of its own: what it does cannot be told from what a brood is.';
};

const levelText = (kind: TraitKind, value: number | null): string => {
  if (value === null) return NOT_SCORED;
  if (kind === 'yes_no') return value === 0 ? 'no' : 'yes';
  return String(value);
};

const fromMean = (
  values: readonly (number | null)[],
  known: readonly number[],
): Pick<NumberColumn, 'values' | 'mean'> => {
  const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
  return { values: Float64Array.from(values, (value) => (value ?? mean) - mean), mean };
};

/** The value of the look nearest in days at each row's fish, the earlier of two as near; null where there is none. */
const nearestOf = (rows: readonly LookRow[], looks: readonly LookRow[]): (number | null)[] => {
  const ofFish = new Map<string, LookRow[]>();
  for (const look of looks) {
    const list = ofFish.get(look.fishId);
    if (list === undefined) ofFish.set(look.fishId, [look]);
    else list.push(look);
  }
  return rows.map(({ fishId, scoredOn }) => {
    const away = (look: LookRow): number => Math.abs(daysBetween(scoredOn, look.scoredOn));
    const nearest = (ofFish.get(fishId) ?? []).reduce<LookRow | null>(
      (best, look) => (best === null || away(look) < away(best) ? look : best),
      null,
    );
    return nearest?.value ?? null;
  });
};
