import type { MergedRecord, OwnCount } from '@linewright/merging';
import type { EntityManager } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import { erasedAmong } from '../stock/own-data/erase-stamps.js';
import { idsIn, recordsAlike, sharedRows } from '../stock/shared-rows.js';
import { agreementsOn } from './share-agreements.js';
import {
  idsInField,
  kindOfGroup,
  type SharedKind,
  sharedKinds,
  type ShareGroup,
  tableOf,
} from './share-fields.js';
import { contentHash, type ShareFile, STAMPED_VERSION } from './share-file.js';
import { fishPassedBy, type MayPass } from './fish-passed.js';
import type { SharedRecord } from './share-record.js';
import { labeller } from './share-labels.js';
import { leaveOut } from './share-left-out.js';
import {
  type Agreement,
  asTold,
  changesOf,
  meeting,
  type Met,
  outcomeOf,
  type SharePlanItem,
  withOurs,
} from './share-plan.js';
import { expectRules, type LatestMoment } from './share-rules.js';
import { fromTable } from './share-selection.js';
import { stateHere, type StampRow, stampRows } from './share-stamps.js';
import { missingIn, stateInFile, VersionsProblem } from './share-versions.js';

/** Records of one kind as they stand here, withdrawn ones too, by id. */
export const recordsHere = async (
  manager: EntityManager,
  kind: SharedKind,
  ids: readonly string[],
): Promise<Map<string, SharedRecord>> => {
  const rows = await sharedRows(manager, kind, ids);
  return new Map(rows.map((row) => fromTable(kind, row)).map((record) => [record.id, record]));
};

/** Incoming ids whose unique fields (tag, code, key, locus) another record here already has. */
const clashesOf = (
  manager: EntityManager,
  { group, table, unique }: SharedKind,
  records: readonly SharedRecord[],
): Promise<Map<string, string>> => {
  if (unique.length === 0) return Promise.resolve(new Map<string, string>());
  // A withdrawn genotype makes room for another at its locus; tags and codes are never used again.
  const freedByWithdrawal =
    group === 'genotypes' || group === 'locusSettings' || group === 'carePlans';
  return recordsAlike(manager, { table, unique, freedByWithdrawal }, records);
};

/** Of loci with the same short name, those that mean the same: defined alike on both sides, they are one locus. */
const alikeLoci = async (
  manager: EntityManager,
  kind: SharedKind,
  records: readonly SharedRecord[],
  clashes: ReadonlyMap<string, string>,
): Promise<Set<string>> => {
  if (kind.group !== 'ownLoci' || clashes.size === 0) return new Set();
  const ours = await recordsHere(manager, kind, [...clashes.values()]);
  const meaning = (record: SharedRecord | undefined): string =>
    JSON.stringify(record?.['definition']);
  const alike = records.filter(
    (record) => meaning(record) === meaning(ours.get(clashes.get(record.id) ?? '')),
  );
  return new Set(alike.map(({ id }) => id));
};

/** Whatever a record points to is in the file or recorded here. */
const expectWhole = async (manager: EntityManager, file: ShareFile): Promise<void> => {
  const wanted = new Map<ShareGroup | 'people', Map<string, string>>();
  const has = new Map<ShareGroup | 'people', Set<string>>([
    ['people', new Set([...file.people, file.sender].map((k) => k.id))],
    ...sharedKinds.map(
      ({ group }) => [group, new Set(file.records[group].map((r) => r.id))] as const,
    ),
  ]);
  for (const kind of sharedKinds) {
    for (const field of kind.fields) {
      const { name, pointsTo } = field;
      if (pointsTo === undefined) continue;
      for (const record of file.records[kind.group]) {
        for (const id of idsInField(field, record[name])) {
          if (has.get(pointsTo)?.has(id)) continue;
          const missing = wanted.get(pointsTo) ?? new Map<string, string>();
          wanted.set(pointsTo, missing.set(id, `the ${kind.kind} ${record.id} ("${name}")`));
        }
      }
    }
  }
  for (const [group, missing] of wanted) {
    const there = await idsIn(manager, tableOf(group), [...missing.keys()]);
    for (const id of there) missing.delete(id);
    for (const [id, where] of missing) {
      throw new RequestError(
        'SHARE_INVALID',
        `The file is not whole: ${where} points to ${id}, which is neither in it nor recorded here. Ask for the file again.`,
        { id },
      );
    }
  }
};

/** The traits of incoming scores, as they will stand here. */
const traitsOf = async (
  manager: EntityManager,
  items: readonly SharePlanItem[],
): Promise<Map<string, SharedRecord>> => {
  const of = (group: ShareGroup) => items.filter(({ kind }) => kind.group === group);
  const traits = new Map(
    of('traits').map(({ record, local, outcome }) => [
      record.id,
      outcome === 'added' || outcome === 'updated' ? record : (local ?? record),
    ]),
  );
  const recorded = of('scores').map(({ record }) => record['traitId'] as string);
  const others = [...new Set(recorded)].filter((id) => !traits.has(id));
  return new Map([...traits, ...(await recordsHere(manager, kindOfGroup('traits'), others))]);
};

/** What is known here of the records of a file before it is looked at. */
export interface Known {
  /** Whether the sender may say whose a fish is that was on record with somebody else. */
  readonly passes: MayPass;
  readonly file: ShareFile;
  readonly agreements: ReadonlyMap<string, Agreement>;
  readonly stamps: ReadonlyMap<string, StampRow>;
  readonly own: OwnCount;
  /** Records that were erased here. */
  readonly erased: ReadonlySet<string>;
}

const unchanged = (record: SharedRecord): Met => ({
  ...{ record, outcome: 'unchanged', met: null, apart: [] },
});

/** What never went out from here and says the same as theirs is no change of ours: records that were copied are alike on both sides. */
const onlyDiffering = (ours: MergedRecord, theirs: MergedRecord): MergedRecord =>
  Object.fromEntries(
    Object.entries(ours).filter(([name, part]) => part[0]?.text !== theirs[name]?.[0]?.text),
  );

/** By the versions that the file tells. */
const byVersions = (
  kind: SharedKind,
  record: SharedRecord,
  local: SharedRecord | null,
  { file, agreements, stamps, own, passes }: Known,
): Met => {
  const [id, { hash, at } = {}] = [record.id, agreements.get(record.id)];
  try {
    const theirs = { record, state: stateInFile(kind, record, file) };
    if (local === null) return meeting(kind, null, theirs);
    const kept = stamps.get(id);
    // As an older file brought it or took it, and not changed since: theirs is as new at least.
    const asAgreed = hash === contentHash(kind, local) && new Date(file.exportedAt) >= at!;
    const state = kept === undefined && asAgreed ? {} : stateHere(kind, local, kept, hash, own);
    const claimed = kept === undefined ? onlyDiffering(state, theirs.state) : state;
    const mayPass = passes(kind, local, record);
    return meeting(kind, { record: local, state: claimed }, theirs, mayPass);
  } catch (error) {
    if (!(error instanceof VersionsProblem)) throw error;
    throw new RequestError(
      'SHARE_INVALID',
      `This is not a line file that can be read: the ${kind.kind} ${id} cannot be taken: ${error.message}.`,
      { recordId: id },
    );
  }
};

/** By what was last agreed on, as an older file tells it. */
const byAgreement = (
  kind: SharedKind,
  record: SharedRecord,
  local: SharedRecord | null,
  { file, agreements }: Known,
): Met => {
  const incoming = {
    ...{ record, agreedHash: file.agreed[record.id], sentAt: new Date(file.exportedAt) },
  };
  const outcome = outcomeOf(kind, local, agreements.get(record.id), incoming);
  return { record, outcome, met: null, apart: [] };
};

/** With what a record is left out that was erased here. */
export const ERASED = 'record that was erased here';

/** Why a new or changed record is not taken in, or `null`. */
export type KeptOut = (item: SharePlanItem) => string | null;

/** The item, or that it is left out where a reason is given. */
export const keptOut = (item: SharePlanItem, why: KeptOut): SharePlanItem => {
  const brings = item.outcome === 'added' || item.outcome === 'updated' || item.apart.length > 0;
  if (!brings) return item;
  const leftOutWith = why(item);
  if (leftOutWith === null) return item;
  return { ...item, outcome: 'conflict', met: null, apart: [], leftOutWith };
};

/** No file brings back what was erased here: of what stays of it, ours stands. */
const asErased = (item: SharePlanItem): SharePlanItem => ({
  ...{ ...item, met: null, apart: [], changes: [], clashesWith: null },
  ...(item.local === null
    ? { outcome: 'conflict', leftOutWith: ERASED }
    : { outcome: 'kept_local' }),
});

/** What stands here beside the records of a kind: by id, as clashes with others, and as loci that mean the same. */
export interface Beside {
  readonly local: ReadonlyMap<string, SharedRecord>;
  readonly clashes: ReadonlyMap<string, string>;
  readonly alike: ReadonlySet<string>;
}

/** What becomes of each record of one kind of a file, beside what stands here. */
export const planRecords = (
  kind: SharedKind,
  { local, clashes, alike }: Beside,
  known: Known,
): SharePlanItem[] => {
  const { file } = known;
  const met = file.version >= STAMPED_VERSION ? byVersions : byAgreement;
  return file.records[kind.group].map((said): SharePlanItem => {
    const ours = local.get(said.id) ?? null;
    const told = withOurs(
      kind,
      asTold(kind, said, ours, file.version),
      ours,
      missingIn(file, said.id),
    );
    const item = alike.has(said.id) ? unchanged(told) : met(kind, told, ours, known);
    const writes = item.outcome === 'added' || item.outcome === 'updated';
    const clashesWith = writes ? (clashes.get(said.id) ?? null) : null;
    const planned: SharePlanItem = {
      ...item,
      ...{ kind, said: told, local: ours, clashesWith, leftOutWith: null },
      changes: item.outcome === 'updated' ? changesOf(kind, ours, item.record) : [],
      differences: ours === null ? [] : changesOf(kind, ours, told),
      ...(clashesWith !== null && { outcome: 'conflict', met: null, apart: [] }),
    };
    return known.erased.has(said.id) ? asErased(planned) : planned;
  });
};

const planKind = async (
  manager: EntityManager,
  kind: SharedKind,
  known: Known,
): Promise<SharePlanItem[]> => {
  const records = known.file.records[kind.group];
  const ids = records.map((r) => r.id);
  const local = await recordsHere(manager, kind, ids);
  const clashes = await clashesOf(manager, kind, records);
  const alike = await alikeLoci(manager, kind, records, clashes);
  return planRecords(kind, { local, clashes, alike }, known);
};

/**
 * What taking a file in would do, record by record. Writes nothing.
 *
 * @param own the number of the next set of changes of this install
 * @param whyOut what else is not taken in
 * @param sender whose install signed the file, when it is paired with this one
 * @throws RequestError `SHARE_INVALID`
 */
export const planShare = async (
  manager: EntityManager,
  file: ShareFile,
  own: OwnCount,
  latest: LatestMoment,
  whyOut: KeptOut,
  sender: string | null,
): Promise<SharePlanItem[]> => {
  await expectWhole(manager, file);
  const ids = sharedKinds.flatMap((kind) => file.records[kind.group].map((r) => r.id));
  const agreements = await agreementsOn(manager, ids);
  const known = {
    ...{ file, agreements, own },
    stamps: await stampRows(manager, ids),
    passes: await fishPassedBy(manager, sender),
    erased: await erasedAmong(manager, ids),
  };
  const items: SharePlanItem[] = [];
  for (const kind of sharedKinds)
    for (const item of await planKind(manager, kind, known)) items.push(keptOut(item, whyOut));
  const labelOf = labeller(file.records);
  const planned = leaveOut(items, labelOf);
  expectRules(planned, await traitsOf(manager, planned), latest, labelOf);
  return planned;
};
