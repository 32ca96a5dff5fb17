import { asSystem } from '../../apps/api/src/access/acting.js';
import { claimsOf } from '../../apps/api/src/sharing/claim-rule.js';
import { fishPassedBy } from '../../apps/api/src/sharing/fish-passed.js';
import { handOversOf } from '../../apps/api/src/sharing/hand-over-rule.js';
import {
  kindOfGroup,
  type SharedKind,
  sharedKinds,
  type ShareGroup,
} from '../../apps/api/src/sharing/share-fields.js';
import { canonicalRecord, type ShareFile } from '../../apps/api/src/sharing/share-file.js';
import { labeller } from '../../apps/api/src/sharing/share-labels.js';
import { leaveOut } from '../../apps/api/src/sharing/share-left-out.js';
import type { SharePlanItem } from '../../apps/api/src/sharing/share-plan.js';
import { keptOut, planRecords } from '../../apps/api/src/sharing/share-planning.js';
import type { SharedRecord } from '../../apps/api/src/sharing/share-record.js';
import {
  stampRowOf,
  type StampRow,
  stateHere,
  unsettledOf,
} from '../../apps/api/src/sharing/share-stamps.js';
import { versionsForFile } from '../../apps/api/src/sharing/share-versions.js';
import { newStamps } from '../../apps/api/src/sharing/share-writing.js';
import { settleClaims } from '../../apps/api/src/stock/claim-settling.js';
import { settleHandOvers } from '../../apps/api/src/stock/hand-over-settling.js';
import { HistoryService } from '../../apps/api/src/stock/history.service.js';
import { RecordStore } from '../../apps/api/src/stock/record-store.js';
import { FishClaimRow } from '../../apps/api/src/stock/rows/fish-claim.entity.js';
import { FishRow } from '../../apps/api/src/stock/rows/fish.entity.js';
import { HandOverRow } from '../../apps/api/src/stock/rows/hand-over.entity.js';
import { SpawnRow } from '../../apps/api/src/stock/rows/spawn.entity.js';
import { type Row, RowsInMemory } from './rows-in-memory.js';

const TARGETS = {
  fish: FishRow,
  spawns: SpawnRow,
  handOvers: HandOverRow,
  fishClaims: FishClaimRow,
} as const;
export type Group = keyof typeof TARGETS;
const GROUPS = (['fish', 'spawns', 'handOvers', 'fishClaims'] as const).map(
  (group) => [group, kindOfGroup(group)] as const,
);

export interface Person {
  readonly id: string;
  readonly install: string;
}

/** A file of a line, signed by whose install made it. */
export interface Sent {
  readonly by: string;
  readonly to: string;
  readonly file: ShareFile;
}

const LINE = '00000000-0000-4000-8000-00000000000f';

/** One install with its rows and the versions of each record: what the server does when it writes a file, and when it takes one in. */
export class FishRoom {
  readonly rows: RowsInMemory;
  readonly records: RecordStore;
  #stamps = new Map<string, StampRow>();
  #count = 0;

  /** @param days by which its clock is wrong */
  constructor(
    readonly person: Person,
    readonly people: readonly Person[],
    readonly days: number,
    ownerOfLine: string,
  ) {
    this.rows = new RowsInMemory(person.id, [{ id: LINE, personId: ownerOfLine }]);
    const history = Object.create(HistoryService.prototype) as HistoryService;
    const clock = { now: () => new Date(`${this.today}T08:00:00.000Z`) };
    this.records = new RecordStore(history, clock as never);
  }

  get today(): string {
    return new Date(Date.UTC(2026, 5, 15 + this.days)).toISOString().slice(0, 10);
  }

  get done() {
    return { day: this.today, by: this.person.id, accountId: null };
  }

  all(group: Group): Row[] {
    return [...this.rows.rows(TARGETS[group]).values()];
  }

  row(group: Group, id: string): Row | undefined {
    return this.rows.rows(TARGETS[group]).get(id);
  }

  /** A row as its table would have it: what is not given is empty. */
  put(group: Group, row: Row): void {
    const empty = kindOfGroup(group).fields.map(({ name }) => [name, null] as const);
    const made = { ...Object.fromEntries(empty), revision: 1, applied: false, madeHere: false };
    this.rows.rows(TARGETS[group]).set(row.id, { ...made, ...row });
  }

  act<Answer>(work: () => Promise<Answer>): Promise<Answer> {
    return asSystem('hand-over', work);
  }

  #record(kind: SharedKind, row: Row): SharedRecord {
    const { withdrawnAt } = row;
    const at = withdrawnAt instanceof Date ? withdrawnAt.toISOString() : withdrawnAt;
    return canonicalRecord(kind, { ...row, withdrawnAt: at });
  }

  /** Of hand-overs and claims, those of whoever it is for. */
  #goesTo(group: Group, row: Row, to: string): boolean {
    if (group === 'handOvers') return row['fromId'] === to || row['toId'] === to;
    return group !== 'fishClaims' || row['byId'] === to || row['toId'] === to;
  }

  send(to: string): Sent {
    const own = { install: this.person.install, count: this.#count + 1 };
    const versioned = GROUPS.flatMap(([group, kind]) =>
      this.all(group)
        .filter((row) => this.#goesTo(group, row, to))
        .map((row) => {
          const record = this.#record(kind, row);
          const state = stateHere(kind, record, this.#stamps.get(row.id), undefined, own);
          return { kind, record, state };
        }),
    );
    const stamped = versioned.map(({ kind, record, state }) =>
      stampRowOf(kind, record, state, unsettledOf(state)),
    );
    this.#keep(stamped, own.count);
    const records = Object.fromEntries(
      sharedKinds.map((kind): [ShareGroup, SharedRecord[]] => [
        kind.group,
        versioned.filter((one) => one.kind === kind).map(({ record }) => record),
      ]),
    ) as unknown as ShareFile['records'];
    const file: ShareFile = {
      ...{ format: 'linewright-line', version: 5, exportedAt: `${this.today}T08:00:00.000Z` },
      ...{ sender: { id: this.person.id, name: this.person.id }, people: [], lineId: LINE },
      ...{ records, agreed: {}, installs: [], ...versionsForFile(versioned) },
    };
    return structuredClone({ by: this.person.id, to, file });
  }

  #keep(rows: readonly StampRow[], count: number): void {
    const fresh = newStamps(rows, this.#stamps);
    for (const row of fresh) this.#stamps.set(row.recordId, structuredClone(row));
    if (fresh.length > 0) this.#count = Math.max(this.#count, count);
  }

  /** Takes a file in as the server does: planned, written, settled, and looked at once more where that changed anything. */
  take({ by, file }: Sent): Promise<readonly SharePlanItem[]> {
    return this.act(async () => {
      const own = { install: this.person.install, count: ++this.#count };
      const items = await this.#plan(by, file, own);
      this.#write(items);
      if (!(await this.#settle(items))) return items;
      this.#write(await this.#plan(by, file, own));
      return items;
    });
  }

  async #plan(
    sender: string,
    file: ShareFile,
    own: { install: string; count: number },
  ): Promise<SharePlanItem[]> {
    const known = {
      ...{ file, own, agreements: new Map(), stamps: this.#stamps, erased: new Set<string>() },
      passes: await fishPassedBy(this.rows.asManager(), sender),
    };
    const keys = new Set(this.people.map(({ id }) => id));
    const here = this.person.id;
    const all = claimsOf(file, { sender, here }, () => null);
    const theirs = handOversOf({ sender, known: keys }, all);
    const items = GROUPS.flatMap(([group, kind]) => {
      const local = new Map(this.all(group).map((row) => [row.id, this.#record(kind, row)]));
      const beside = { local, clashes: new Map<string, string>(), alike: new Set<string>() };
      return planRecords(kind, beside, known).map((item) => keptOut(item, theirs));
    });
    return leaveOut(items, labeller(file.records));
  }

  #write(items: readonly SharePlanItem[]): void {
    for (const { kind, record, outcome } of items) {
      const group = kind.group as Group;
      const at = record['withdrawnAt'] as string | null;
      const row = { ...record, withdrawnAt: at === null ? null : new Date(at) };
      if (outcome === 'added') this.put(group, row);
      if (outcome === 'updated') Object.assign(this.row(group, record.id)!, row);
    }
    const met = items.flatMap(({ kind, record, met: state, apart }) =>
      state === null ? [] : [stampRowOf(kind, record, state, apart)],
    );
    this.#keep(met, this.#count);
  }

  async #settle(items: readonly SharePlanItem[]): Promise<boolean> {
    const written = (group: Group): string[] =>
      items.flatMap(({ kind, outcome, record }) =>
        kind.group === group && (outcome === 'added' || outcome === 'updated') ? [record.id] : [],
      );
    const m = this.rows.asManager();
    const { records, done } = this;
    const moved = await settleHandOvers(m, records, written('handOvers'), done);
    const here = this.person.id;
    const united = await settleClaims(m, records, written('fishClaims'), here, done);
    return moved || united;
  }

  /** Records of which a person would be asked, and of which parts. */
  waiting(): string[] {
    return [...this.#stamps.values()].flatMap(({ recordKind, apart }) =>
      apart.map((part) => `${recordKind} ${part}`),
    );
  }
}
