import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RecordStore, type RecordType } from '../stock/record-store.js';
import { fishRecord, spawnRecord, vesselRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import type { VesselRow, VesselStayRow } from '../stock/rows/vessel.entity.js';
import { isUnderWay } from '../stock/spawn-rows.js';
import { beginStays, endStays, staysNow } from '../stock/vessel-rows.js';
import { expectFits } from './company.js';
import type { MoveToVesselInput } from './vessel.model.js';

const whyNotHere: Partial<Record<FishRow['disposition'], string>> = {
  died: 'is recorded as dead',
  culled: 'was culled',
  elsewhere: 'is kept elsewhere',
};

const expectHere = (fish: FishRow, personId: string): void => {
  const why =
    fish.withdrawnAt !== null
      ? 'was withdrawn'
      : (whyNotHere[fish.disposition] ??
        (fish.swimsWithId === personId ? undefined : 'was passed on and swims elsewhere'));
  if (why === undefined) return;
  throw fieldError({
    field: 'fishIds',
    message: `${fish.tag} ${why}: it goes into no vessel. Correct its record first if that is wrong.`,
  });
};

const listed = (tags: readonly string[]): string =>
  tags.length < 4 ? tags.join(', ') : `${tags.slice(0, 3).join(', ')} and ${tags.length - 3} more`;

/** Fish and spawns go from vessel to vessel; where they were stays on record. */
@Injectable()
export class MovesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /**
   * Moves all of them or none. Those that are in the vessel already stay as they are.
   *
   * @returns the vessels that changed, the new one first.
   * @throws RequestError `VALIDATION` for fish that are not alive here and spawns that are over; `VESSEL_OCCUPIED` where they would be
   *   with others and it is not said why.
   */
  move(input: MoveToVesselInput, person: SignedInPerson): Promise<VesselRow[]> {
    const ids = { fishIds: [...new Set(input.fishIds)], spawnIds: [...new Set(input.spawnIds)] };
    if (ids.fishIds.length + ids.spawnIds.length === 0)
      throw fieldError({ field: 'fishIds', message: 'Say which fish or spawn moves.' });
    return this.dataSource.transaction(async (m) => {
      await oneAtATime(m, `vessels of ${person.id}`);
      const fish = await this.all<FishRow>(m, fishRecord, ids.fishIds);
      const spawns = await this.all<SpawnRow>(m, spawnRecord, ids.spawnIds);
      const to = input.vesselId == null ? null : await this.vessel(m, input.vesselId, person);
      const inIt = to === null ? [] : await staysNow(m, 'vesselId', [to.id]);
      if (to !== null) {
        for (const one of fish) expectHere(one, person.id);
        for (const one of spawns) await this.expectUnderWay(m, one);
        await this.expectRoom(m, to, inIt, fish, spawns, input.company ?? null);
      }
      const there = new Set(inIt.map((stay) => stay.fishId ?? stay.spawnId));
      const go = <Row extends { id: string }>(rows: readonly Row[]) =>
        rows.flatMap(({ id }) => (there.has(id) ? [] : [id]));
      return this.write(m, to, { fishIds: go(fish), spawnIds: go(spawns) }, input, person);
    });
  }

  private async write(
    m: EntityManager,
    to: VesselRow | null,
    ids: { fishIds: string[]; spawnIds: string[] },
    { company }: MoveToVesselInput,
    person: SignedInPerson,
  ): Promise<VesselRow[]> {
    const at = this.clock.now();
    const left = await endStays(m, ids, at);
    if (to !== null) {
      const stay = {
        ...{ vesselId: to.id, cameAt: at, company: company ?? null, byName: person.name },
      };
      await beginStays(m, [
        ...ids.fishIds.map((fishId) => ({ ...stay, id: randomUUID(), fishId })),
        ...ids.spawnIds.map((spawnId) => ({ ...stay, id: randomUUID(), spawnId })),
      ]);
    }
    const before = [...new Set(left.map(({ vesselId }) => vesselId))].filter((id) => id !== to?.id);
    const others = await Promise.all(before.map((id) => this.records.find(m, vesselRecord, id)));
    return to === null ? others : [to, ...others];
  }

  private all<Row extends FishRow | SpawnRow>(
    m: EntityManager,
    type: RecordType<Row>,
    ids: readonly (string | null)[],
  ): Promise<Row[]> {
    const named = ids.filter((id) => id !== null);
    return Promise.all(named.map((id) => this.records.find(m, type, id)));
  }

  private async vessel(m: EntityManager, id: string, person: SignedInPerson): Promise<VesselRow> {
    const row = await this.records.find(m, vesselRecord, id);
    const why =
      row.withdrawnAt !== null
        ? `${row.code} is not in use any more (${row.withdrawnReason ?? 'no reason given'})`
        : row.personId === person.id
          ? null
          : `${row.code} stands in another house`;
    if (why === null) return row;
    throw fieldError({
      field: 'vesselId',
      message: `${why}: nothing was moved. Choose another vessel.`,
    });
  }

  private async expectUnderWay(m: EntityManager, spawn: SpawnRow): Promise<void> {
    if (await isUnderWay(m, spawn.id)) return;
    throw fieldError({
      field: 'spawnIds',
      message: `Spawn ${spawn.tag} is not under way: it goes into no vessel.`,
    });
  }

  private async expectRoom(
    m: EntityManager,
    to: VesselRow,
    inIt: readonly VesselStayRow[],
    fish: readonly FishRow[],
    spawns: readonly SpawnRow[],
    company: MoveToVesselInput['company'],
  ): Promise<void> {
    const come = new Set([...fish, ...spawns].map(({ id }) => id));
    const stay = inIt.filter((one) => !come.has(one.fishId ?? one.spawnId ?? ''));
    if (stay.length + come.size < 2) return;
    const others = await this.all<FishRow>(
      m,
      fishRecord,
      stay.map(({ fishId }) => fishId),
    );
    const broods = await this.all<SpawnRow>(
      m,
      spawnRecord,
      stay.map(({ spawnId }) => spawnId),
    );
    if (company != null) {
      expectFits(company, [...others, ...fish], broods.length + spawns.length);
      return;
    }
    const tags = [...others, ...broods].map(({ tag }) => tag);
    const message =
      stay.length === 0
        ? `${listed([...fish, ...spawns].map(({ tag }) => tag))} would be together in ${to.code}.`
        : `${listed(tags)} ${tags.length === 1 ? 'is' : 'are'} in ${to.code} already.`;
    throw new RequestError(
      'VESSEL_OCCUPIED',
      `${message} Fighting fish that reach each other can kill each other: put each into a vessel of its own, or say that it is a group of females, a pair or a brood that grows up together. Nothing was moved.`,
      { vesselId: to.id },
    );
  }
}
