import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { given, trimmed } from '../database/given.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { holdCode } from '../stock/named-vessel.js';
import { RecordStore } from '../stock/record-store.js';
import { vesselRecord } from '../stock/record-types.js';
import type { VesselRow, VesselStayRow } from '../stock/rows/vessel.entity.js';
import { staysNow, staysOf, vesselsOf, vesselWithCode } from '../stock/vessel-rows.js';
import type { CorrectVesselInput, CreateVesselInput } from './vessel.model.js';

const MOST_LITRES = 10_000;
const MOST_PLACES = 1_000;

const expectPlaces = (fields: Partial<CreateVesselInput>): void => {
  const { litres } = fields;
  if (litres != null && !(litres > 0 && litres <= MOST_LITRES))
    throw fieldError({
      field: 'litres',
      message: `Give the litres as a number above 0, at most ${MOST_LITRES.toLocaleString('en')}.`,
    });
  for (const field of ['shelf', 'position'] as const) {
    const value = fields[field];
    if (value != null && !(value >= 1 && value <= MOST_PLACES))
      throw fieldError({
        field,
        message: `Count the ${field} from 1, to ${MOST_PLACES.toLocaleString('en')} at most.`,
      });
  }
};

const expectCode = (code: string): string => {
  const text = code.trim().replace(/\s+/gu, ' ');
  if (text !== '') return text;
  throw fieldError({ field: 'code', message: 'Give the vessel a code: what stands on it.' });
};

/** Vessels of a house. */
@Injectable()
export class VesselsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  page(
    person: SignedInPerson,
    withWithdrawn: boolean,
    first: number,
    after: string | undefined,
  ): Promise<KeysetPage<VesselRow>> {
    return vesselsOf(this.dataSource.manager, person.id, withWithdrawn, first, after);
  }

  find(id: string): Promise<VesselRow> {
    return this.records.find(this.dataSource.manager, vesselRecord, id);
  }

  stays(
    of: { vesselId?: string | null; fishId?: string | null; spawnId?: string | null },
    first: number,
    after: string | undefined,
  ): Promise<KeysetPage<VesselStayRow>> {
    const asked = Object.entries(of).filter(([, id]) => id != null);
    if (asked.length !== 1)
      throw fieldError({
        field: 'vesselId',
        message: 'Name a vessel, a fish or a spawn: one of the three.',
      });
    return staysOf(this.dataSource.manager, Object.fromEntries(asked), first, after);
  }

  /** Several at once, as a whole rack is put up: all of them or none. */
  create(inputs: readonly CreateVesselInput[], person: SignedInPerson): Promise<VesselRow[]> {
    return this.dataSource.transaction(async (m) => {
      const made: VesselRow[] = [];
      for (const input of inputs) made.push(await this.createOne(m, input, person));
      return made;
    });
  }

  private async createOne(
    m: EntityManager,
    input: CreateVesselInput,
    person: SignedInPerson,
  ): Promise<VesselRow> {
    const id = input.id ?? randomUUID();
    const code = expectCode(input.code);
    expectPlaces(input);
    await this.expectFree(m, person, code, id);
    const row = {
      ...{ id, personId: person.id, code, kind: input.kind },
      ...{ litres: input.litres ?? null, shelf: input.shelf ?? null },
      ...{ position: input.position ?? null, rack: trimmed(input.rack) ?? null },
      note: trimmed(input.note) ?? null,
    };
    return this.records.create<VesselRow>(m, vesselRecord, row, person.name);
  }

  correct(
    { id, revision, code, kind, ...rest }: CorrectVesselInput,
    person: SignedInPerson,
  ): Promise<VesselRow> {
    expectPlaces(rest);
    return this.dataSource.transaction(async (m) => {
      const changes: Partial<VesselRow> = {
        ...(given({
          ...{ litres: rest.litres, shelf: rest.shelf, position: rest.position },
          ...{ rack: trimmed(rest.rack), note: trimmed(rest.note) },
        }) as Partial<VesselRow>),
        ...(kind != null && { kind }),
        ...(code != null && { code: expectCode(code) }),
      };
      if (changes.code !== undefined) await this.expectFree(m, person, changes.code, id);
      return this.records.correct<VesselRow>(
        ...([m, vesselRecord, id, revision, changes, person.name] as const),
      );
    });
  }

  withdraw({ id, reason, revision }: WithdrawInput, person: SignedInPerson): Promise<VesselRow> {
    return this.dataSource.transaction(async (m) => {
      const vessel = await this.records.lock(m, vesselRecord, id);
      const inIt = await staysNow(m, 'vesselId', [id]);
      if (inIt.length > 0)
        throw fieldError({
          field: 'id',
          message: `There ${inIt.length === 1 ? 'is one' : `are ${inIt.length}`} in ${vessel.code}: move them first.`,
        });
      return this.records.withdraw<VesselRow>(m, vesselRecord, id, reason, person.name, revision);
    });
  }

  private async expectFree(
    m: EntityManager,
    person: SignedInPerson,
    code: string,
    id: string,
  ): Promise<void> {
    await holdCode(m, person.id, code);
    const other = await vesselWithCode(m, person.id, code);
    if (other === null || other.id === id) return;
    throw new RequestError(
      'TAG_TAKEN',
      `There is a vessel ${other.code} already: give another code.`,
      {
        fields: [{ field: 'code', message: `There is a vessel ${other.code} already.` }],
      },
    );
  }
}
