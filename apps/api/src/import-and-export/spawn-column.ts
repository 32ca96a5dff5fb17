import type { ImportProblemCode } from './import-problem.js';
import type { ReadFish } from './fish-row.js';
import type { RecordedSpawn } from './recorded-stock.js';

/** A fish of a recorded spawn, as far as the spawn column of a file depends on it. */
export interface SpawnOfFish {
  /** `null`: the fish is of no recorded spawn. */
  readonly spawnTag: string | null;
  readonly mixedOrigin: boolean;
  readonly hasSire: boolean;
  readonly hasDam: boolean;
}

/**
 * What the spawn column says of a fish. Young of a spawn of several broods are sibs only by the parents on record, and equal cells
 * mean full sibs: such a fish has no cell, or, where one parent alone is known, a cell that no other has.
 */
export const spawnCell = (
  { spawnTag, mixedOrigin, hasSire, hasDam }: SpawnOfFish,
  fishTag: string,
): string | null => {
  if (spawnTag === null || !mixedOrigin) return spawnTag;
  return hasSire === hasDam ? null : `${spawnTag} ${fishTag}`;
};

type Report = (
  fish: ReadFish,
  role: 'sire' | 'dam' | 'spawn',
  code: ImportProblemCode,
  value: string | null,
  message: string,
  remedy: string,
) => void;

/** What a spawn's parent is, and who says so. */
interface Said {
  readonly tag: string | null;
  readonly by: string;
}

const remedy =
  'Fish with the same spawn are full sibs: correct the parent, or give each brood a spawn of its own.';

/**
 * Rows of one spawn share their parents: what one of them or the recorded spawn names holds for all. Different parents are reported.
 * Cost: linear in rows.
 */
export const withParentsOfSpawn = (
  fish: readonly ReadFish[],
  recorded: ReadonlyMap<string, RecordedSpawn>,
  report: Report,
): ReadFish[] => {
  const said = { sire: new Map<string, Said>(), dam: new Map<string, Said>() };
  for (const [role, by] of [
    ['sire', said.sire],
    ['dam', said.dam],
  ] as const) {
    for (const one of fish) {
      if (one.spawn === null) continue;
      const record = recorded.get(one.spawn);
      const before: Said | undefined =
        by.get(one.spawn) ??
        (record && {
          tag: role === 'sire' ? record.sireTag : record.damTag,
          by: 'the record of that spawn',
        });
      if (before !== undefined) by.set(one.spawn, before);
      const tag = one[role];
      if (tag === null) continue;
      if (before === undefined) by.set(one.spawn, { tag, by: `line ${one.line}` });
      else if (before.tag !== tag) {
        report(
          one,
          role,
          'IMPORT_SPAWN_PARENTS',
          tag,
          `"${one.written}" of the spawn "${one.spawn}" has the ${role} "${tag}"; ${before.by} says ${before.tag === null ? 'unknown' : `"${before.tag}"`}.`,
          remedy,
        );
      }
    }
  }
  for (const one of fish) {
    if (one.spawn === null || recorded.get(one.spawn)?.withdrawn !== true) continue;
    const message = `The record of the spawn "${one.spawn}" was withdrawn.`;
    report(one, 'spawn', 'IMPORT_SPAWN_PARENTS', one.spawn, message, 'Give the spawn another tag.');
  }
  return fish.map((one) =>
    one.spawn === null
      ? one
      : {
          ...one,
          sire: one.sire ?? said.sire.get(one.spawn)?.tag ?? null,
          dam: one.dam ?? said.dam.get(one.spawn)?.tag ?? null,
        },
  );
};
