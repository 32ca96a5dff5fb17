import { findColumnProblems } from '@linewright/pedigree';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { insertRecords, tellMany, updateRecords } from '../stock/bulk-insert.js';
import { RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { RecordKind } from '../database/record-kind.js';
import { meetPeople, namesOfPeople } from '../stock/people-rows.js';
import { taggedParentage } from '../stock/pedigree-rows.js';
import { idsIn, recordsAlike, revisionsOf, sharedRows } from '../stock/shared-rows.js';
import { besideTheLoop } from '../jobs/beside.js';
import { type SharedKind, sharedKinds, type ShareGroup } from './share-fields.js';
import {
  contentHash,
  expectShareSize,
  readShareFile,
  SHARE_FORMAT,
  SHARE_VERSION,
  type ShareFile,
  type SharedRecord,
} from './share-file.js';
import { rowsOf, writeApart } from './share-apart.js';
import { labeller } from './share-labels.js';
import { leaveOut } from './share-left-out.js';
import {
  type Agreement,
  asTold,
  changesOf,
  outcomeOf,
  type ShareOutcome,
  type SharePlanItem,
} from './share-plan.js';
import { expectRules } from './share-rules.js';
import { fromTable, selectLine } from './share-selection.js';
import { readingProgram } from './reading-program.js';

export interface ShareReportItem {
  readonly recordKind: RecordKind;
  readonly recordId: string;
  readonly label: string;
  readonly outcome: ShareOutcome;
  readonly changes: readonly { field: string; before: unknown; after: unknown }[];
}

export interface ShareReport {
  readonly senderName: string;
  readonly lineCode: string;
  readonly lineName: string;
  readonly added: number;
  readonly updated: number;
  readonly unchanged: number;
  readonly conflicts: number;
  readonly items: readonly ShareReportItem[];
  readonly applied: boolean;
}

interface AgreementRow {
  readonly id: string;
  readonly kind: RecordKind;
  readonly hash: string;
}

/** Characters; a longer file is read in a thread. */
const LARGEST_READ_AT_ONCE = 200_000;

const outcomeOrder: readonly ShareOutcome[] = [
  'conflict',
  'updated',
  'kept_local',
  'added',
  'unchanged',
];

/** Groups in which a clash leaves other records of the file without what they point to. */
const carrying: readonly ShareGroup[] = ['lines', 'traits', 'fish', 'spawns'];

/** Lines out to a partner, and in from one. */
@Injectable()
export class ShareService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** One line with all it needs; what is sent for the first time is noted as agreed. */
  exportLine(lineId: string, sender: SignedInPerson): Promise<ShareFile> {
    return this.dataSource.transaction('REPEATABLE READ', async (manager) => {
      const records = await selectLine(manager, lineId);
      const sentAt = this.clock.now();
      const sent = sharedKinds.flatMap((kind) =>
        records[kind.group].map((r) => ({ id: r.id, kind: kind.kind, hash: contentHash(kind, r) })),
      );
      await this.agree(manager, sent, sentAt, 'first');
      const agreements = await this.agreements(
        manager,
        sent.map((s) => s.id),
      );
      const personIds = new Set(
        sharedKinds.flatMap((kind) =>
          records[kind.group].flatMap((r) =>
            kind.fields.flatMap(({ name, pointsTo }) =>
              pointsTo === 'people' && r[name] !== null ? [r[name]] : [],
            ),
          ),
        ),
      );
      const people = await namesOfPeople(manager, [...personIds] as string[]);
      return {
        format: SHARE_FORMAT,
        version: SHARE_VERSION,
        exportedAt: sentAt.toISOString(),
        sender: { id: sender.id, name: sender.name },
        people,
        lineId,
        records,
        agreed: Object.fromEntries([...agreements].map(([id, { hash }]) => [id, hash])),
        grants: null,
        signature: null,
      };
    });
  }

  private async read(text: string): Promise<ShareFile> {
    if (text.length <= LARGEST_READ_AT_ONCE) return readShareFile(text);
    expectShareSize(text);
    return besideTheLoop(readingProgram, text);
  }

  /** What taking the file in would do. Writes nothing. */
  async preview(text: string): Promise<ShareReport> {
    const file = await this.read(text);
    return this.dataSource.transaction('REPEATABLE READ', async (manager) =>
      report(file, await this.plan(manager, file), false),
    );
  }

  /** Takes the file in, in one transaction: conflicts are listed and left as they are here. */
  async accept(text: string, person: SignedInPerson): Promise<ShareReport> {
    const file = await this.read(text);
    return this.dataSource.transaction(async (manager) => {
      // One file at a time, and no parent changed between the check and the end.
      await manager.query(`SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE`);
      const items = await this.plan(manager, file);
      refuseClashes(file, items);
      await this.write(manager, file, items, person.name);
      await this.checkPedigree(manager);
      return report(file, items, true);
    });
  }

  private async plan(manager: EntityManager, file: ShareFile): Promise<SharePlanItem[]> {
    await this.checkReferences(manager, file);
    const sentAt = new Date(file.exportedAt);
    const ids = sharedKinds.flatMap((kind) => file.records[kind.group].map((r) => r.id));
    const agreements = await this.agreements(manager, ids);
    const items: SharePlanItem[] = [];
    for (const kind of sharedKinds) {
      const records = file.records[kind.group];
      const local = await this.local(
        manager,
        kind,
        records.map((r) => r.id),
      );
      const clashes = await this.clashes(manager, kind, records);
      const alike = await this.alikeLoci(manager, kind, records, clashes);
      for (const said of records) {
        const ours = local.get(said.id) ?? null;
        const record = asTold(kind, said, ours, file.version);
        const incoming = { record, agreedHash: file.agreed[record.id], sentAt };
        const outcome = alike.has(record.id)
          ? 'unchanged'
          : outcomeOf(kind, ours, agreements.get(record.id), incoming);
        const writes = outcome === 'added' || outcome === 'updated';
        const clashesWith = writes ? (clashes.get(record.id) ?? null) : null;
        const changes =
          outcome === 'unchanged' || outcome === 'added' ? [] : changesOf(kind, ours, record);
        items.push({
          kind,
          record,
          local: ours,
          changes,
          clashesWith,
          leftOutWith: null,
          outcome: clashesWith === null ? outcome : 'conflict',
        });
      }
    }
    const labelOf = labeller(file);
    const planned = leaveOut(items, labelOf);
    const latest = { day: this.clock.latestDayAnywhere(), time: this.clock.latestTime() };
    expectRules(planned, await this.traitsOf(manager, planned), latest, labelOf);
    return planned;
  }

  /** The traits of incoming scores, as they will stand here. */
  private async traitsOf(
    manager: EntityManager,
    items: readonly SharePlanItem[],
  ): Promise<Map<string, SharedRecord>> {
    const of = (group: ShareGroup) => items.filter(({ kind }) => kind.group === group);
    const traits = new Map(
      of('traits').map(({ record, local, outcome }) => [
        record.id,
        outcome === 'added' || outcome === 'updated' ? record : (local ?? record),
      ]),
    );
    const recorded = of('scores').map(({ record }) => record['traitId'] as string);
    const kind = sharedKinds.find(({ group }) => group === 'traits')!;
    const others = [...new Set(recorded)].filter((id) => !traits.has(id));
    return new Map([...traits, ...(await this.local(manager, kind, others))]);
  }

  private async local(
    manager: EntityManager,
    kind: SharedKind,
    ids: string[],
  ): Promise<Map<string, SharedRecord>> {
    const rows = await sharedRows(manager, kind, ids);
    return new Map(rows.map((row) => fromTable(kind, row)).map((record) => [record.id, record]));
  }

  /** Incoming ids whose unique fields (tag, code, key, locus) another record here already has. */
  private clashes(
    manager: EntityManager,
    kind: SharedKind,
    records: readonly SharedRecord[],
  ): Promise<Map<string, string>> {
    if (kind.unique.length === 0) return Promise.resolve(new Map<string, string>());
    // A withdrawn genotype makes room for another at its locus; tags and codes are never used again.
    const freedByWithdrawal = kind.group === 'genotypes' || kind.group === 'locusSettings';
    const { table, unique } = kind;
    return recordsAlike(manager, { table, unique, freedByWithdrawal }, records);
  }

  /** Of loci with the same short name, those that mean the same: defined alike on both sides, they are one locus. */
  private async alikeLoci(
    manager: EntityManager,
    kind: SharedKind,
    records: readonly SharedRecord[],
    clashes: ReadonlyMap<string, string>,
  ): Promise<Set<string>> {
    if (kind.group !== 'ownLoci' || clashes.size === 0) return new Set();
    const ours = await this.local(manager, kind, [...clashes.values()]);
    const meaning = (record: SharedRecord | undefined): string =>
      JSON.stringify(record?.['definition']);
    const alike = records.filter(
      (record) => meaning(record) === meaning(ours.get(clashes.get(record.id) ?? '')),
    );
    return new Set(alike.map(({ id }) => id));
  }

  /** Whatever a record points to is in the file or recorded here. */
  private async checkReferences(manager: EntityManager, file: ShareFile): Promise<void> {
    const wanted = new Map<ShareGroup | 'people', Map<string, string>>();
    const has = new Map<ShareGroup | 'people', Set<string>>([
      ['people', new Set([...file.people, file.sender].map((k) => k.id))],
      ...sharedKinds.map(
        ({ group }) => [group, new Set(file.records[group].map((r) => r.id))] as const,
      ),
    ]);
    for (const kind of sharedKinds) {
      for (const { name, pointsTo, idsIn } of kind.fields) {
        if (pointsTo === undefined) continue;
        for (const record of file.records[kind.group]) {
          const value = record[name];
          if (value === null) continue;
          for (const id of idsIn === undefined ? [value as string] : idsIn(value)) {
            if (has.get(pointsTo)?.has(id)) continue;
            const missing = wanted.get(pointsTo) ?? new Map<string, string>();
            wanted.set(pointsTo, missing.set(id, `the ${kind.kind} ${record.id} ("${name}")`));
          }
        }
      }
    }
    for (const [group, missing] of wanted) {
      const table =
        group === 'people' ? 'person' : sharedKinds.find((k) => k.group === group)!.table;
      const there = await idsIn(manager, table, [...missing.keys()]);
      for (const id of there) missing.delete(id);
      for (const [id, where] of missing) {
        throw new RequestError(
          'SHARE_INVALID',
          `The file is not whole: ${where} points to ${id}, which is neither in it nor recorded here. Ask for the file again.`,
          { id },
        );
      }
    }
  }

  private async write(
    manager: EntityManager,
    file: ShareFile,
    items: readonly SharePlanItem[],
    by: string,
  ): Promise<void> {
    const people = new Map([...file.people, file.sender].map((k) => [k.id, k]));
    await meetPeople(manager, [...people.values()]);
    for (const kind of sharedKinds) {
      const own = items.filter((item) => item.kind === kind);
      const added = own.filter((item) => item.outcome === 'added').map((item) => item.record);
      const updated = own.filter((item) => item.outcome === 'updated');
      const rows = await rowsOf(manager, kind, added);
      await insertRecords(manager, kind.table, kind.kind, rows, by, 'received');
      await this.update(manager, kind, updated, by);
      await writeApart(manager, kind, [...added, ...updated.map(({ record }) => record)], by);
    }
    const agreed = items
      .filter(
        ({ outcome }) => outcome === 'added' || outcome === 'updated' || outcome === 'unchanged',
      )
      .map(({ kind, record }) => ({
        id: record.id,
        kind: kind.kind,
        hash: contentHash(kind, record),
      }));
    await this.agree(manager, agreed, new Date(file.exportedAt), 'latest');
  }

  private async update(
    manager: EntityManager,
    kind: SharedKind,
    items: readonly SharePlanItem[],
    by: string,
  ): Promise<void> {
    if (items.length === 0) return;
    const records = items.map((item) => item.record);
    await updateRecords(manager, kind.table, await rowsOf(manager, kind, records));
    const revisionOf = await revisionsOf(
      manager,
      kind.table,
      items.map((item) => item.record.id),
    );
    const told = items.map(({ record, changes }) => ({
      id: record.id,
      revision: revisionOf.get(record.id) ?? 1,
      changes: Object.fromEntries(
        changes.map(({ field, before, after }) => [field, { before, after }]),
      ),
    }));
    await tellMany(manager, kind.kind, told, by, 'received');
  }

  private async agreements(
    manager: EntityManager,
    ids: readonly string[],
  ): Promise<Map<string, Agreement>> {
    const rows: { id: string; hash: string; at: Date }[] = await manager.query(
      `SELECT record_id AS id, content_hash AS hash, agreed_at AS at FROM share_base WHERE record_id = ANY($1::uuid[])`,
      [ids],
    );
    return new Map(rows.map(({ id, hash, at }) => [id, { hash, at }]));
  }

  /** Sending says nothing of what the partner took in, so only the first sending counts as an agreement. */
  private async agree(
    manager: EntityManager,
    agreed: readonly AgreementRow[],
    at: Date,
    when: 'first' | 'latest',
  ): Promise<void> {
    await manager.query(
      `INSERT INTO share_base (record_id, record_kind, content_hash, agreed_at)
       SELECT r.id, r.kind, r.hash, $2 FROM json_to_recordset($1::json) AS r(id uuid, kind text, hash text)
       ON CONFLICT (record_id) DO ${
         when === 'first'
           ? 'NOTHING'
           : `UPDATE SET content_hash = excluded.content_hash, agreed_at = excluded.agreed_at
              WHERE share_base.agreed_at <= excluded.agreed_at OR share_base.content_hash <> excluded.content_hash`
       }`,
      [JSON.stringify(agreed), at],
    );
  }

  /** Changes from both sides, each sound by itself, can close a circle together. */
  private async checkPedigree(manager: EntityManager): Promise<void> {
    const rows = await taggedParentage(manager);
    const tags = new Map(rows.map((row) => [row.id, row.tag]));
    const problem = findColumnProblems({
      ids: rows.map((row) => row.id),
      sire: rows.map((row) => row.sireId),
      dam: rows.map((row) => row.damId),
    }).find(({ code }) => code === 'PEDIGREE_CYCLE' || code === 'PEDIGREE_SAME_PARENTS');
    if (problem === undefined) return;
    const chain = [...problem.others, problem.id].map((id) => `"${tags.get(id) ?? id}"`);
    const message =
      problem.code === 'PEDIGREE_CYCLE'
        ? `with this file a fish would be its own ancestor: ${chain.join(' is a young of ')}`
        : `with this file a fish would have one parent as both sire and dam: ${chain.join(' and ')}`;
    throw new RequestError(
      'SHARE_INVALID',
      `Nothing was taken in: ${message}. Settle with your partner which parent is right.`,
    );
  }
}

const refuseClashes = (file: ShareFile, items: readonly SharePlanItem[]): void => {
  const clash = items.find(
    (item) =>
      item.clashesWith !== null && item.local === null && carrying.includes(item.kind.group),
  );
  if (clash === undefined) return;
  const label = labeller(file)(clash.kind, clash.record);
  throw new RequestError(
    'SHARE_INVALID',
    `Nothing was taken in: the ${clash.kind.kind} "${label}" of the file and another ${clash.kind.kind} recorded here have the same name and the same owner. Give one of the two another name.`,
    { recordId: clash.record.id, otherId: clash.clashesWith },
  );
};

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

const report = (
  file: ShareFile,
  items: readonly SharePlanItem[],
  applied: boolean,
): ShareReport => {
  const count = (...outcomes: ShareOutcome[]): number =>
    items.filter((item) => outcomes.includes(item.outcome)).length;
  const line = file.records.lines.find((l) => l.id === file.lineId);
  const labelOf = labeller(file);
  return {
    senderName: file.sender.name,
    lineCode: textOf(line?.['code']),
    lineName: textOf(line?.['name']),
    added: count('added'),
    updated: count('updated'),
    unchanged: count('unchanged', 'kept_local'),
    conflicts: count('conflict'),
    items: items
      .map(({ kind, record, outcome, changes, clashesWith, leftOutWith }) => ({
        recordKind: kind.kind,
        recordId: record.id,
        label: labelOf(kind, record),
        outcome,
        changes:
          leftOutWith !== null
            ? [{ field: 'restsOn', before: null, after: leftOutWith }]
            : clashesWith === null
              ? changes
              : [{ field: 'id', before: clashesWith, after: record.id }],
      }))
      .toSorted((a, b) => outcomeOrder.indexOf(a.outcome) - outcomeOrder.indexOf(b.outcome)),
    applied,
  };
};
