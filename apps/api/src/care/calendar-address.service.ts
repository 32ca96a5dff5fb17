import { timingSafeEqual } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { accountWithId } from '../accounts/known-accounts.js';
import { hashToken, newToken } from '../accounts/tokens.js';
import { Clock } from '../clock/clock.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { CalendarAddressRow } from '../stock/rows/care.entity.js';
import type { CalendarAddressModel } from './care.model.js';

const sameText = (a: string, b: string): boolean =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

/** The secret address of a person's calendar: off until made, replaced at will, and known only to whoever it was told. */
@Injectable()
export class CalendarAddressService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  async state(person: SignedInPerson): Promise<CalendarAddressModel> {
    const row = await this.dataSource
      .getRepository(CalendarAddressRow)
      .findOneBy({ personId: person.id });
    return { on: row !== null, since: row?.createdAt ?? null, path: null };
  }

  async renew(person: SignedInPerson): Promise<CalendarAddressModel> {
    const secret = newToken();
    const since = this.clock.now();
    await this.dataSource
      .getRepository(CalendarAddressRow)
      .upsert({ personId: person.id, secretHash: hashToken(secret), createdAt: since }, [
        'personId',
      ]);
    return { on: true, since, path: `/calendar/${secret}.ics` };
  }

  async turnOff(person: SignedInPerson): Promise<CalendarAddressModel> {
    await this.dataSource.getRepository(CalendarAddressRow).delete({ personId: person.id });
    return { on: false, since: null, path: null };
  }

  /**
   * Whose calendar a secret opens. It is looked up by its hash, so how long that takes tells nothing about the secret, and
   * the hash found is compared once more in constant time.
   */
  async personOf(secret: string): Promise<SignedInPerson | null> {
    if (!/^[\w-]{43}$/.test(secret)) return null;
    const secretHash = hashToken(secret);
    // The secret is all that is known of whoever asks.
    return asSystem('entrance', async () => {
      const row = await this.dataSource.getRepository(CalendarAddressRow).findOneBy({ secretHash });
      if (row === null || !sameText(row.secretHash, secretHash)) return null;
      return accountWithId(this.dataSource, row.personId);
    });
  }
}
