import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { clubLine, putClubLine } from '../stock/club-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { ClubConsentInput, ClubConsentModel } from './club.model.js';

/** What whoever's a line is lets the club know of it, line by line; nothing as long as they say nothing. */
@Injectable()
export class ConsentService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /** `null` for a line of somebody else that the asker may see. */
  async of(lineId: string, by: SignedInPerson): Promise<ClubConsentModel | null> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, lineId);
    if (line.personId !== by.keepsFor) return null;
    const row = await clubLine(manager, line.id);
    return { lineId: line.id, shown: row?.shown ?? false, counted: row?.counted ?? false };
  }

  async set(
    { lineId, shown, counted }: ClubConsentInput,
    by: SignedInPerson,
  ): Promise<ClubConsentModel> {
    const { manager } = this.dataSource;
    const line = await this.records.standing(manager, lineRecord, lineId);
    if (line === null || line.personId !== by.keepsFor) throw notFound('line', lineId);
    const said = { lineId: line.id, shown, counted };
    await putClubLine(manager, {
      ...said,
      ...{ keeperId: line.personId, byAccountId: by.id, changedAt: this.clock.now() },
    });
    return said;
  }
}
