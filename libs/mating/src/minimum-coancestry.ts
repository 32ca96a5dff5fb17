import { coancestryBlock } from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import { assignCheapest, assignExhaustively } from './assignment.js';
import { MatingError } from './mating-error.js';

/** What to pair, and how often a fish may be used. */
export interface AllocationInput {
  readonly pedigree: Pedigree;
  /** Ids of the males to use. */
  readonly males: readonly string[];
  /** Ids of the females to use; each gets one male at most. */
  readonly females: readonly string[];
  /** How many pairs are wanted; as many as can be made when left out. */
  readonly pairs?: number;
  /** How many females one male may be put to, one after another; 1 when left out. */
  readonly matesPerMale?: number;
  /** Pairs that must not be made, [sire id, dam id]. */
  readonly forbidden?: readonly (readonly [string, string])[];
}

/** One pair of an allocation. */
export interface AllocatedPair {
  readonly sireId: string;
  readonly damId: string;
  /** F of the brood: the coancestry of sire and dam. */
  readonly inbreeding: number;
}

/** Pairs chosen together so that their broods are the least inbred on average. */
export interface Allocation {
  /** By sire id, then dam id. */
  readonly pairs: readonly AllocatedPair[];
  readonly totalInbreeding: number;
  readonly meanInbreeding: number;
  /** Fish that got no partner, by id. */
  readonly leftOver: { readonly males: readonly string[]; readonly females: readonly string[] };
  /** Pairs asked for that could not be made, because fish ran out or the rest was forbidden. */
  readonly missing: number;
}

const SMALL = 6;

/**
 * Minimum-coancestry mating: pairs several fish at once so that the sum of the broods' F is the least possible.
 *
 * Toro & Perez-Enciso 1990, Genet Sel Evol 22:93-107 (from memory) describe the principle. Small sets (up to 6 by 6) are
 * tried out in full, larger ones go through {@link assignCheapest}; both give the least total. Among equally good
 * allocations the small sets take the first in id order; the larger ones take one, always the same.
 *
 * It looks at F alone: who is too young or what classes come out is for {@link rankPairings}. Forbid such pairs here.
 *
 * Throws `MatingError`: `MATING_UNKNOWN_FISH`, `MATING_DUPLICATE_FISH`, `MATING_BAD_SETTING`.
 * Cost: one coancestry block, then pairs x males x matesPerMale x females.
 */
export function allocatePairs(input: AllocationInput): Allocation {
  const { pedigree } = input;
  const males = checkedIds(pedigree, input.males);
  const females = checkedIds(pedigree, input.females);
  const mates = input.matesPerMale ?? 1;
  if (!Number.isInteger(mates) || mates < 1) {
    throw new MatingError(
      'MATING_BAD_SETTING',
      'matesPerMale',
      'matesPerMale must be a whole number of 1 or more.',
    );
  }
  const rows = males.flatMap((_, m) =>
    Array.from({ length: Math.min(mates, females.length) }, () => m),
  );
  const most = Math.min(rows.length, females.length);
  const asked = input.pairs ?? most;
  if (!Number.isInteger(asked) || asked < 0) {
    throw new MatingError(
      'MATING_BAD_SETTING',
      'pairs',
      'pairs must be a whole number of 0 or more.',
    );
  }
  const inbreeding = coancestryBlock(
    pedigree,
    males.map((id) => pedigree.indexOf(id)),
    females.map((id) => pedigree.indexOf(id)),
  );
  const forbidden = new Set(
    (input.forbidden ?? []).map(([sire, dam]) => JSON.stringify([sire, dam])),
  );
  const cost = new Float64Array(rows.length * females.length);
  rows.forEach((m, row) => {
    females.forEach((dam, f) => {
      const banned = forbidden.has(JSON.stringify([males[m], dam]));
      cost[row * females.length + f] = banned
        ? Infinity
        : (inbreeding[m * females.length + f] ?? 0);
    });
  });
  const assign =
    Math.max(rows.length, females.length) <= SMALL ? assignExhaustively : assignCheapest;
  const { cells } = assign(cost, rows.length, females.length, Math.min(asked, most));
  const pairs = cells.map(([row, f]): AllocatedPair => {
    const m = rows[row] ?? 0;
    return {
      sireId: males[m] ?? '',
      damId: females[f] ?? '',
      inbreeding: inbreeding[m * females.length + f] ?? 0,
    };
  });
  return summarise(pairs, males, females, asked);
}

function summarise(
  pairs: readonly AllocatedPair[],
  males: readonly string[],
  females: readonly string[],
  asked: number,
): Allocation {
  const ordered = pairs.toSorted(
    (a, b) => compare(a.sireId, b.sireId) || compare(a.damId, b.damId),
  );
  const total = ordered.reduce((sum, pair) => sum + pair.inbreeding, 0);
  const usedMales = new Set(ordered.map(({ sireId }) => sireId));
  const usedFemales = new Set(ordered.map(({ damId }) => damId));
  return {
    pairs: ordered,
    totalInbreeding: total,
    meanInbreeding: ordered.length === 0 ? 0 : total / ordered.length,
    leftOver: {
      males: males.filter((id) => !usedMales.has(id)),
      females: females.filter((id) => !usedFemales.has(id)),
    },
    missing: asked - ordered.length,
  };
}

function checkedIds(pedigree: Pedigree, ids: readonly string[]): string[] {
  const seen = new Set<string>();
  for (const id of ids) {
    if (!pedigree.has(id)) {
      throw new MatingError(
        'MATING_UNKNOWN_FISH',
        id,
        `Fish ${id} is not in the pedigree. Add it, or remove it here.`,
      );
    }
    if (seen.has(id))
      throw new MatingError(
        'MATING_DUPLICATE_FISH',
        id,
        `Fish ${id} is listed twice. List it once.`,
      );
    seen.add(id);
  }
  return [...seen].toSorted(compare);
}

/** Code unit order: the same on every machine, whatever its language. */
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
