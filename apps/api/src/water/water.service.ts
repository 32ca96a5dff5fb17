import { fahrenheitHint } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectTimeHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { expectFigure } from './expect-figure.js';
import type { CorrectWaterInput, RecordWaterInput, WaterFiguresInput } from './water.inputs.js';
import type { WaterReadingRow } from '../stock/rows/water-reading.entity.js';
import { listReadings, newestReadings, readingsById } from '../stock/water-rows.js';
import { vesselNamed } from '../stock/named-vessel.js';
import { spawnRecord, waterReadingRecord } from '../stock/record-types.js';

/** Water with readings, and its newest one. */
export interface WaterPlaceRow {
  readonly name: string;
  readonly vessel: string | null;
  readonly vesselId: string | null;
  readonly spawnId: string | null;
  readonly readingCount: number;
  readonly latest: WaterReadingRow;
}

const checkedFigures = (figures: WaterFiguresInput): Partial<WaterReadingRow> => {
  expectFigure('totalAmmonia', 'Total ammonia (mg/L)', figures.totalAmmonia, 0, 100);
  expectFigure('pH', 'The pH', figures.pH, 4, 11);
  expectFigure(
    'celsius',
    'The temperature (°C)',
    figures.celsius,
    0,
    50,
    fahrenheitHint(figures.celsius ?? 0),
  );
  expectFigure('nitrite', 'Nitrite (mg/L)', figures.nitrite, 0, 100);
  expectFigure('nitrate', 'Nitrate (mg/L)', figures.nitrate, 0, 2_000);
  const pairs = [
    ['totalAmmonia', 'ammoniaUnit', 'ammonia'],
    ['nitrite', 'nitriteForm', 'nitrite'],
    ['nitrate', 'nitrateForm', 'nitrate'],
  ] as const;
  for (const [value, unit, word] of pairs) {
    if ((figures[value] ?? null) !== null && (figures[unit] ?? null) === null) {
      throw fieldError({
        field: unit,
        message: `Say what the ${word} figure counts: the kit’s leaflet prints it beside the scale.`,
      });
    }
  }
  const measured = ['totalAmmonia', 'pH', 'celsius', 'nitrite', 'nitrate'] as const;
  if (measured.every((field) => (figures[field] ?? null) === null)) {
    throw fieldError({
      field: 'totalAmmonia',
      message: 'Give at least one figure of the reading.',
    });
  }
  const withUnit = <Unit>(value: number | null | undefined, unit: Unit | null | undefined) =>
    (value ?? null) === null ? null : (unit ?? null);
  return {
    totalAmmonia: figures.totalAmmonia ?? null,
    ammoniaUnit: withUnit(figures.totalAmmonia, figures.ammoniaUnit),
    ph: figures.pH ?? null,
    celsius: figures.celsius ?? null,
    nitrite: figures.nitrite ?? null,
    nitriteForm: withUnit(figures.nitrite, figures.nitriteForm),
    nitrate: figures.nitrate ?? null,
    nitrateForm: withUnit(figures.nitrate, figures.nitrateForm),
    kit: trimmed(figures.kit) ?? null,
    note: trimmed(figures.note) ?? null,
  };
};

@Injectable()
export class WaterService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /** Newest first. */
  readings(
    place: { spawnId?: string | null; vessel?: string | null },
    person: SignedInPerson,
    page: { first: number; after: string | null },
  ): Promise<KeysetPage<WaterReadingRow>> {
    const vessel = trimmed(place.vessel) ?? null;
    const of = place.spawnId ? { spawnId: place.spawnId } : { personId: person.id };
    const { manager } = this.dataSource;
    return listReadings(manager, of, vessel, page.first, page.after ?? undefined);
  }

  /** Every spawn and vessel with readings, the one read last first. */
  async places(person: SignedInPerson): Promise<WaterPlaceRow[]> {
    const rows = await newestReadings(this.dataSource, person.id);
    const latest = await readingsById(
      this.dataSource.manager,
      rows.map(({ id }) => id),
    );
    const byId = new Map(latest.map((row) => [row.id, row]));
    return rows
      .flatMap(({ id, tag, code, count }): WaterPlaceRow[] => {
        const row = byId.get(id);
        if (row === undefined) return [];
        const { vesselId, spawnId } = row;
        const place = { name: tag ?? code ?? '', vessel: code, vesselId, spawnId };
        return [{ ...place, readingCount: count, latest: row }];
      })
      .sort((a, b) => b.latest.takenAt.getTime() - a.latest.takenAt.getTime());
  }

  record(input: RecordWaterInput, person: SignedInPerson): Promise<WaterReadingRow> {
    const vessel = trimmed(input.vessel) ?? null;
    const spawnId = input.spawnId ?? null;
    if ((vessel === null) === (spawnId === null)) {
      throw fieldError({
        field: 'vessel',
        message: 'Say whose water it is: give either a spawn or the name of a vessel.',
      });
    }
    if (vessel !== null && vessel.length > 60) {
      throw fieldError({
        field: 'vessel',
        message: 'Give the vessel a name of 1 to 60 characters.',
      });
    }
    expectTimeHappened(this.clock, input.takenAt, 'takenAt');
    const figures = checkedFigures(input.figures);
    return this.dataSource.transaction(async (m): Promise<WaterReadingRow> => {
      if (spawnId !== null) this.expectSpawn(await this.records.find(m, spawnRecord, spawnId));
      const row = {
        id: input.id ?? randomUUID(),
        personId: person.id,
        spawnId,
        vesselId: vessel === null ? null : (await vesselNamed(m, this.records, person, vessel)).id,
        takenAt: input.takenAt,
        ...figures,
      };
      return this.records.create<WaterReadingRow>(m, waterReadingRecord, row, person.name);
    });
  }

  correct(input: CorrectWaterInput, person: SignedInPerson): Promise<WaterReadingRow> {
    expectTimeHappened(this.clock, input.takenAt, 'takenAt');
    const changes = { takenAt: input.takenAt, ...checkedFigures(input.figures) };
    return this.dataSource.transaction((m) =>
      this.records.correct<WaterReadingRow>(
        m,
        waterReadingRecord,
        input.id,
        input.revision,
        changes,
        person.name,
      ),
    );
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<WaterReadingRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<WaterReadingRow>(
        m,
        waterReadingRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }

  private expectSpawn(spawn: SpawnRow): void {
    if (spawn.withdrawnAt === null) return;
    throw fieldError({
      field: 'spawnId',
      message: `Spawn ${spawn.tag} was withdrawn: record this for another, or for a vessel.`,
    });
  }
}
