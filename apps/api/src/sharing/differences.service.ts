import { decided, type MergedRecord, type Stamp } from '@linewright/merging';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import type { RecordKind } from '../database/record-kind.js';
import { notFound, RequestError } from '../errors/request-error.js';
import { countedPage, type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { namesOfPeople } from '../stock/people-rows.js';
import { RecordStampRow } from '../stock/rows/share-state.entity.js';
import { idsIn } from '../stock/shared-rows.js';
import { type Difference, differencesOf, keyOf } from './differences.js';
import { agreementsOn } from './share-agreements.js';
import {
  idsInField,
  kindOfGroup,
  type SharedKind,
  sharedKinds,
  type ShareGroup,
  tableOf,
} from './share-fields.js';
import type { SharedRecord } from './share-record.js';
import { installsKnown } from './share-installs.js';
import { labeller } from './share-labels.js';
import { recordOf, textsOf } from './share-parts.js';
import { changesOf } from './share-plan.js';
import { recordsHere } from './share-planning.js';
import { expectRules } from './share-rules.js';
import {
  keepStamps,
  nextCount,
  shownTexts,
  stampRowOf,
  stampRows,
  stateHere,
  unsettledOf,
  useCount,
} from './share-stamps.js';
import { expectSoundPedigree, writeChanged } from './share-writing.js';

/** A record of which several installs say different things. */
export interface RecordDifferences {
  readonly recordKind: RecordKind;
  readonly recordId: string;
  readonly label: string;
  readonly differences: readonly Difference[];
}

export interface Choice {
  readonly recordId: string;
  readonly part: string;
  readonly version: string;
}

const kindNamed = (name: string): SharedKind => sharedKinds.find(({ kind }) => kind === name)!;

/** A record, and what of it waits. */
interface Told {
  readonly here: SharedRecord;
  readonly differences: readonly Difference[];
}

/** Ids of one group in the records and in what they may be instead. */
const idsPointedTo = (
  kind: SharedKind,
  told: readonly Told[],
  group: ShareGroup | 'people',
): string[] => {
  const fields = kind.fields.filter(
    ({ pointsTo, idsIn: many }) => pointsTo === group && many === undefined,
  );
  const ids = told.flatMap(({ here, differences }) =>
    fields.flatMap(({ name }) => [
      here[name],
      ...differences.flatMap(({ versions }) =>
        versions.flatMap(({ values }) =>
          values.filter(({ field }) => field === name).map(({ value }) => value),
        ),
      ),
    ]),
  );
  return [...new Set(ids.filter((id) => typeof id === 'string'))];
};

/** Ids of other records by their names, as people know them. */
const withNames = (
  kind: SharedKind,
  difference: Difference,
  nameOf: ReadonlyMap<unknown, string>,
): Difference => {
  const pointing = new Set(
    kind.fields.filter(({ pointsTo }) => pointsTo !== undefined).map(({ name }) => name),
  );
  return {
    ...difference,
    versions: difference.versions.map((version) => ({
      ...version,
      values: version.values.map(({ field, value }) => ({
        field,
        value: pointing.has(field) ? (nameOf.get(value) ?? value) : value,
      })),
    })),
  };
};

/** Records that others point to, as far as a name is made of them. */
const named: readonly ShareGroup[] = ['lines', 'traits', 'scoreSheets', 'fish', 'spawns'];

/** What was changed in several places at once, and the decision of it. */
@Injectable()
export class DifferencesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** A page of records that wait for a decision, by id. */
  async list(first: number, after: string | null): Promise<KeysetPage<RecordDifferences>> {
    return this.dataSource.transaction('REPEATABLE READ', async (manager) => {
      const query = manager
        .getRepository(RecordStampRow)
        .createQueryBuilder('r')
        .where("r.apart <> '{}'");
      const order = { key: 'r.id', direction: 'ASC', type: 'uuid' } as const;
      const page = await countedPage(
        await keysetPage(query, 'r', order, first, after ?? undefined),
      );
      const rows = page.edges.map(({ node }) => node);
      const found = await this.differences(manager, rows);
      return {
        ...page,
        edges: page.edges.map(({ cursor, node }) => ({ cursor, node: found.get(node.id)! })),
      };
    });
  }

  private async differences(
    manager: EntityManager,
    rows: readonly RecordStampRow[],
  ): Promise<Map<string, RecordDifferences>> {
    const installs = rows.flatMap((row) => stampsOf(row).flatMap((stamp) => Object.keys(stamp)));
    const known = await installsKnown(manager, [...new Set(installs)]);
    const nameOf = new Map(known.map(({ id, name }) => [id, name]));
    const found = new Map<string, RecordDifferences>();
    for (const kind of new Set(rows.map(({ recordKind }) => kindNamed(recordKind)))) {
      const own = rows.filter(({ recordKind }) => recordKind === kind.kind);
      const ids = own.map(({ id }) => id);
      const local = await recordsHere(manager, kind, ids);
      // Records are withdrawn and never gone.
      const told = own.map((row) => ({
        here: local.get(row.id)!,
        differences: differencesOf(kind, row, local.get(row.id)!, nameOf),
      }));
      const names = await this.names(manager, kind, told);
      for (const { here, differences } of told)
        found.set(here.id, {
          ...{ recordKind: kind.kind, recordId: here.id, label: names.label(kind, here) },
          differences: differences.map((one) => withNames(kind, one, names.nameOf)),
        });
    }
    return found;
  }

  /** Names of records of a kind, and of all that they and their versions point to. */
  private async names(manager: EntityManager, kind: SharedKind, told: readonly Told[]) {
    const known = Object.fromEntries(
      sharedKinds.map(({ group }) => [group, [] as SharedRecord[]]),
    ) as Record<ShareGroup, SharedRecord[]>;
    known[kind.group].push(...told.map(({ here }) => here));
    const nameOf = new Map<unknown, string>();
    for (const group of named) {
      const pointed = await recordsHere(
        manager,
        kindOfGroup(group),
        idsPointedTo(kind, told, group),
      );
      known[group].push(...pointed.values());
      for (const [id, record] of pointed)
        nameOf.set(id, String(record['tag'] ?? record['code'] ?? record['name']));
    }
    for (const { id, name } of await namesOfPeople(manager, idsPointedTo(kind, told, 'people')))
      nameOf.set(id, name);
    return { label: labeller(known), nameOf };
  }

  /**
   * Decides a part by one of its versions. The decision replaces all of them here and, with the next exchange, everywhere.
   *
   * @throws RequestError `NOT_FOUND` where nothing of the record waits; `CONFLICT_REVISION` where it was decided meanwhile
   */
  async decide(
    { recordId, part, version }: Choice,
    person: SignedInPerson,
  ): Promise<RecordDifferences> {
    return this.dataSource.transaction(async (manager) => {
      await manager.query(`SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE`);
      const own = await nextCount(manager);
      const kept = (await stampRows(manager, [recordId])).get(recordId);
      if (kept === undefined) throw notFound('record with versions', recordId);
      const kind = kindNamed(kept.recordKind);
      const local = (await recordsHere(manager, kind, [recordId])).get(recordId);
      if (local === undefined) throw notFound('record with versions', recordId);
      const hash = (await agreementsOn(manager, [recordId])).get(recordId)?.hash;
      const state = stateHere(kind, local, kept, hash, own);
      const text = chosenText(state, part, version);
      const next = decided(state, part, text, own);
      const shown = shownTexts(next, textsOf(kind, local));
      const record = { ...local, ...recordOf(kind, recordId, shown) };
      await this.write(manager, kind, local, record, person.name);
      await keepStamps(manager, [stampRowOf(kind, record, next, unsettledOf(next))]);
      await useCount(manager, own.count);
      const row = await manager.getRepository(RecordStampRow).findOneByOrFail({ id: recordId });
      return (await this.differences(manager, [row])).get(recordId)!;
    });
  }

  private async write(
    manager: EntityManager,
    kind: SharedKind,
    local: SharedRecord,
    record: SharedRecord,
    by: string,
  ): Promise<void> {
    const changes = changesOf(kind, local, record);
    if (changes.length === 0) return;
    await expectThere(manager, kind, record);
    const latest = { day: this.clock.latestDayAnywhere(), time: this.clock.latestTime() };
    const item = {
      ...{ kind, record, said: record, local, changes, differences: changes, apart: [], met: null },
      ...{ outcome: 'updated' as const, clashesWith: null, leftOutWith: null },
    };
    const traits = await recordsHere(
      manager,
      kindOfGroup('traits'),
      kind.group === 'scores' ? [record['traitId'] as string] : [],
    );
    expectRules([item], traits, latest, (_, { id }) => id);
    await writeChanged(manager, kind, [{ record, changes }], by, 'corrected');
    await expectSoundPedigree(manager);
  }
}

const stampsOf = ({ versions: { all, parts, others } }: RecordStampRow): Stamp[] => [
  all,
  ...Object.values(parts ?? {}),
  ...Object.values(others ?? {}).flatMap((part) => part.map(({ stamp }) => stamp)),
];

const chosenText = (state: MergedRecord, part: string, version: string): string => {
  if (!unsettledOf(state).includes(part))
    throw new RequestError(
      'CONFLICT_REVISION',
      'This was decided meanwhile, here or by a change of the record: look at the list again.',
    );
  const found = state[part]!.find(({ text }) => keyOf(text) === version);
  if (found !== undefined) return found.text;
  throw new RequestError(
    'CONFLICT_REVISION',
    `There is no version "${version}" of it any longer: look at the list again.`,
  );
};

/** @throws RequestError `SHARE_INVALID` where the record would point to one that is not here */
const expectThere = async (
  manager: EntityManager,
  kind: SharedKind,
  record: SharedRecord,
): Promise<void> => {
  for (const field of kind.fields) {
    const { name, pointsTo } = field;
    const ids = idsInField(field, record[name]);
    if (pointsTo === undefined || ids.length === 0) continue;
    const there = new Set(await idsIn(manager, tableOf(pointsTo), ids));
    const missing = ids.find((id) => !there.has(id));
    if (missing === undefined) continue;
    throw new RequestError(
      'SHARE_INVALID',
      `Nothing was changed: it points to a record (${missing}) that is not here yet. Take in your partner's newer file first.`,
      { id: missing },
    );
  }
};
