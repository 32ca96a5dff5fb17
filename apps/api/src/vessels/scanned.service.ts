import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { isUuid } from '../limits/is-uuid.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toFish } from '../shapes/fish.mapper.js';
import { personName } from '../stock/people-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, vesselRecord } from '../stock/record-types.js';
import { vesselWithCode } from '../stock/vessel-rows.js';
import { readLabel } from './read-label.js';
import { toVessel } from './vessel.mapper.js';
import type { ScannedCodeModel } from './vessel.model.js';

const nothing: ScannedCodeModel = {
  ...{ vessel: null, fish: null, ofAnotherHouse: false, houseName: null, unknownCode: null },
};

/** What a label that was read, or a code that was typed, stands for. Changes nothing. */
@Injectable()
export class ScannedService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  async read(text: string, person: SignedInPerson): Promise<ScannedCodeModel> {
    const { manager } = this.dataSource;
    const label = readLabel(text);
    if (label.kind === 'code') {
      const row = label.code === '' ? null : await vesselWithCode(manager, person.id, label.code);
      return row === null
        ? { ...nothing, unknownCode: label.code }
        : { ...nothing, vessel: toVessel(row) };
    }
    const id = isUuid(label.id) ? label.id : null;
    if (id !== null && label.kind === 'fish') {
      const fish = await this.records.known(manager, fishRecord, id);
      if (fish !== null) return { ...nothing, fish: toFish(fish) };
    }
    if (id !== null && label.kind === 'vessel') {
      const row = await this.records.known(manager, vesselRecord, id);
      if (row !== null && row.personId === person.id) return { ...nothing, vessel: toVessel(row) };
    }
    const house = label.house !== null && isUuid(label.house) ? label.house : null;
    const houseName = house === null ? null : await personName(manager, house);
    return { ...nothing, ofAnotherHouse: true, houseName };
  }
}
