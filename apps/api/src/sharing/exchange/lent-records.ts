import type { MergedRecord } from '@linewright/merging';
import { type GrantPart, grantParts } from '../../access/grant.js';
import { NOT_SHOWN } from '../../access/masking.js';
import { fieldsOfPart } from '../../stock/lent-views.js';
import {
  idsInField,
  kindOfGroup,
  type SharedKind,
  sharedKinds,
  type ShareGroup,
} from '../share-fields.js';
import { textsOf, partsOf } from '../share-parts.js';
import type { SharedRecord } from '../share-record.js';

export type LineRecords = Readonly<Record<ShareGroup, readonly SharedRecord[]>>;

/** A record as a partner is given it, and the parts of it that stay here. */
export interface LentRecord {
  readonly kind: SharedKind;
  readonly record: SharedRecord;
  readonly missing: readonly string[];
}

/** Parts that the partner does not see as they are. */
const maskedParts = (kind: SharedKind, whole: SharedRecord, seen: SharedRecord): string[] => {
  const [all, shown] = [textsOf(kind, whole), textsOf(kind, seen)];
  return Object.keys(all).filter((name) => all[name] !== shown[name]);
};

/** What is told of a fish or spawn that only stands in for an ancestor: parentage and sex, so that F is whole. */
const toldOf: Readonly<Partial<Record<ShareGroup, readonly string[]>>> = {
  fish: ['personId', 'sex', 'spawnId'],
  spawns: ['personId', 'sireId', 'damId'],
};

/** What besides of a fish whose name goes out, and nothing else of its record. */
const NAME = ['tag', 'hatchDate'];

const standIn = (
  kind: SharedKind,
  whole: SharedRecord,
  personId: unknown,
  byName = false,
): LentRecord => {
  const withName = byName && kind.group === 'fish';
  const told = [...(toldOf[kind.group] ?? []), ...(withName ? NAME : [])];
  const tag = withName ? whole['tag'] : `${NOT_SHOWN} ${whole.id.slice(0, 8)}`;
  const fields = kind.fields.map(({ name }) => [name, told.includes(name) ? whole[name] : null]);
  const record = {
    ...(Object.fromEntries(fields) as Record<string, unknown>),
    ...{ id: whole.id, personId, tag },
    ...(kind.group === 'fish' && { disposition: 'elsewhere' }),
    ...(kind.group === 'spawns' && { failed: false }),
  };
  const missing = partsOf(kind)
    .filter(({ fields: of }) => !of.some((name) => told.includes(name)))
    .map(({ name }) => name);
  return { kind, record, missing };
};

/** What is told of a fish that its keeper claims as the one of which the partner has the tag alone. */
const TOLD_OF_CLAIMED: ReadonlySet<string> = new Set(['personId', 'tag', 'sex', 'hatchDate']);

/** The claimant's own record: whose it is, tag, sex and day of hatching, and its parentage where that goes along. */
const claimedAs = (kind: SharedKind, whole: SharedRecord, withSpawn: boolean): LentRecord => {
  const isTold = (name: string): boolean =>
    TOLD_OF_CLAIMED.has(name) || (withSpawn && name === 'spawnId');
  const fields = kind.fields.map(({ name }) => [name, isTold(name) ? whole[name] : null] as const);
  const missing = partsOf(kind).filter(({ fields: of }) => !of.some(isTold));
  const record = { id: whole.id, ...Object.fromEntries(fields), disposition: 'elsewhere' };
  return { kind, record, missing: missing.map(({ name }) => name) };
};

/** Ancestors outside of a line that go out under their names. */
export interface NamedAncestors {
  /** Ids of those that whoever gives the file sees themselves, among others. */
  readonly of: ReadonlySet<string>;
  /** What of their records goes along; null: tag, sex and day of hatching alone, as a grant promises. */
  readonly parts: ReadonlySet<GrantPart> | null;
}

/** Of an ancestor that goes out under its name: what of it is lent part by part stays here where that part does. */
const named = (
  kind: SharedKind,
  whole: SharedRecord,
  parts: ReadonlySet<GrantPart>,
): LentRecord => {
  const stays = grantParts.flatMap((part) =>
    parts.has(part) ? [] : fieldsOfPart(kind.table, part),
  );
  const missing = partsOf(kind).filter(({ fields }) => fields.some((name) => stays.includes(name)));
  const blank = missing.flatMap(({ fields }) => fields.map((name) => [name, null] as const));
  return {
    ...{ kind, record: { ...whole, ...Object.fromEntries(blank) } },
    missing: missing.map(({ name }) => name),
  };
};

const byId = (records: readonly SharedRecord[]): Map<string, SharedRecord> =>
  new Map(records.map((record) => [record.id, record]));

/** Ancestors that the partner's fish and spawns need and that were not lent. */
const ancestors = (
  whole: LineRecords,
  seen: LineRecords,
  stand: (kind: SharedKind, whole: SharedRecord) => LentRecord,
): LentRecord[] => {
  const [fish, spawns] = [byId(whole.fish), byId(whole.spawns)];
  const [seenFish, seenSpawns] = [byId(seen.fish), byId(seen.spawns)];
  const found = new Map<string, LentRecord>();
  const open: string[] = [];
  const spawnNeeded = (id: unknown): void => {
    const spawn = spawns.get(id as string);
    if (spawn === undefined || found.has(spawn.id)) return;
    if (!seenSpawns.has(spawn.id)) found.set(spawn.id, stand(kindOfGroup('spawns'), spawn));
    for (const parent of [spawn['sireId'], spawn['damId']])
      if (typeof parent === 'string') open.push(parent);
  };
  for (const spawn of seen.spawns) spawnNeeded(spawn.id);
  for (const one of seen.fish) spawnNeeded(one['spawnId']);
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const one = fish.get(id);
    if (one === undefined || seenFish.has(id) || found.has(id)) continue;
    found.set(id, stand(kindOfGroup('fish'), one));
    spawnNeeded(one['spawnId']);
  }
  return [...found.values()];
};

/** Without what points to nothing: a part that may be empty stays here, another takes its record along. */
const pointingOnlyWithin = (lent: readonly LentRecord[]): LentRecord[] => {
  let kept = [...lent];
  for (;;) {
    const there = new Set(kept.map(({ record }) => record.id));
    const next = kept.flatMap(({ kind, record, missing }): LentRecord[] => {
      // People are named apart from the records.
      const broken = kind.fields.filter(
        (field) =>
          field.pointsTo !== 'people' &&
          idsInField(field, record[field.name]).some((id) => !there.has(id)),
      );
      if (broken.length === 0) return [{ kind, record, missing }];
      if (broken.some(({ optional }) => !optional)) return [];
      const names = new Set(broken.map(({ name }) => name));
      const parts = partsOf(kind).filter(({ fields }) => fields.some((name) => names.has(name)));
      const blank = Object.fromEntries([...names].map((name) => [name, null]));
      const stays = [...new Set([...missing, ...parts.map(({ name }) => name)])];
      return [{ kind, record: { ...record, ...blank }, missing: stays }];
    });
    if (next.length === kept.length && next.every(({ record }, k) => record === kept[k]!.record))
      return next;
    kept = next;
  }
};

/**
 * What of a line goes to a partner: records as they see them, and ancestors outside of it without their names. Parts that are masked for
 * them are not given: of those the file says nothing.
 *
 * @param whole as the records are
 * @param seen as the database shows them to the partner
 * @param ancestorsWith of which ancestors outside of the line the names go out; `null`: of none, all are stand-ins
 * Cost: linear in the records, times the length of the longest chain of records that point to something not lent.
 */
export const lentRecords = (
  whole: LineRecords,
  seen: LineRecords,
  lineId: string,
  ancestorsWith: NamedAncestors | null = null,
): LentRecord[] => {
  const owner = whole.lines.find(({ id }) => id === lineId)?.['personId'];
  const shown = sharedKinds.flatMap((kind) => {
    const all = byId(whole[kind.group]);
    return seen[kind.group].flatMap((record): LentRecord[] => {
      const real = all.get(record.id);
      // Seen by way of another line that was lent; or changed between the two looks.
      if (real === undefined) return [];
      return [{ kind, record, missing: maskedParts(kind, real, record) }];
    });
  });
  const claimed = new Set(seen.fishClaims.map(({ asFishId }) => asFishId));
  const stand = (kind: SharedKind, record: SharedRecord): LentRecord => {
    if (claimed.has(record.id)) return claimedAs(kind, record, true);
    const isNamed = ancestorsWith?.of.has(record.id) === true;
    const parts = ancestorsWith?.parts ?? null;
    return isNamed && parts !== null
      ? named(kind, record, parts)
      : standIn(kind, record, owner, isNamed);
  };
  const lent = [...shown, ...ancestors(whole, seen, stand)];
  const there = new Set(lent.map(({ record }) => record.id));
  const others = whole.fish.filter(({ id }) => claimed.has(id) && !there.has(id));
  const claims = others.map((fish) => claimedAs(kindOfGroup('fish'), fish, false));
  return pointingOnlyWithin([...lent, ...claims]);
};

/** A record's versions without those of the parts that stay here. */
export const withoutMissing = (state: MergedRecord, missing: readonly string[]): MergedRecord =>
  Object.fromEntries(Object.entries(state).filter(([name]) => !missing.includes(name)));
