import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { makersOfLine, type Person } from '../stock/people-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, lineRecord, pairingRecord } from '../stock/record-types.js';
import type { PairingRow } from '../stock/rows/pairing.entity.js';
import type { AssignPairingInput } from './pairing.inputs.js';

/** Who makes which planned pair: whoever's a line is, their household, and whoever may breed with it. */
@Injectable()
export class MakersService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  /** Those who may make pairs of a line, of whom the asker knows. */
  async ofLine(lineId: string): Promise<Person[]> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, lineId);
    return makersOfLine(manager, line.id);
  }

  /** Says who makes the pair, or takes that back. */
  assign(
    { pairingId, personId, revision }: AssignPairingInput,
    by: SignedInPerson,
  ): Promise<PairingRow> {
    return this.dataSource.transaction(async (m) => {
      const pairing = await this.records.find(m, pairingRecord, pairingId);
      const makerId = personId ?? null;
      if (makerId !== null) await this.expectMaker(m, pairing, makerId);
      return this.records.correct<PairingRow>(
        m,
        pairingRecord,
        pairing.id,
        revision ?? undefined,
        { makerId },
        by.name,
        'given to make',
      );
    });
  }

  private async expectMaker(m: EntityManager, pairing: PairingRow, id: string): Promise<void> {
    for (const fishId of [pairing.sireId, pairing.damId]) {
      const { lineId } = await this.records.find(m, fishRecord, fishId);
      const makers = await makersOfLine(m, lineId);
      if (!makers.some((one) => one.id === id.toLowerCase()))
        throw fieldError({
          field: 'personId',
          message:
            'Whoever makes a pair keeps the line, is of the household, or may breed with both fish: share the line with them first.',
        });
    }
  }
}
