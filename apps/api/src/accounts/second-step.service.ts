import { randomBytes } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Secret, TOTP } from 'otpauth';
import { DataSource, type EntityManager, IsNull, Not } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { RequestError } from '../errors/request-error.js';
import { toQrCode } from '../graphql/qr-code.js';
import { SecondStepRow, SpareCodeRow } from '../stock/rows/way-in.entity.js';
import { entering } from './entering.js';
import { type AttemptLimit, RefusedAttempts } from './refused-attempts.service.js';
import { hashToken } from './tokens.js';
import type { SecondStepModel, SecondStepOfferModel } from './ways-in.model.js';

/** Time steps of RFC 6238, and how many on either side are taken: clocks of phones are some seconds off. */
const PERIOD_SECONDS = 30;
const STEPS_OFF = 1;
const SPARE_CODES = 8;
/** By person and not by address: whoever guesses codes knows the password already. */
const codes: AttemptLimit = { what: 'sign-in code', allowed: 10, minutes: 10 };

/** SHA-1, six digits, thirty seconds: what every program that shows such codes takes. */
const generatorOf = (secret: string, label = ''): TOTP =>
  new TOTP({
    issuer: 'Linewright',
    label,
    secret: Secret.fromBase32(secret),
    period: PERIOD_SECONDS,
  });

/** The time step in which a code is right, `null` for one that is right in none near `at`. */
export const stepOfCode = (secret: string, code: string, at: Date): number | null => {
  const timestamp = at.getTime();
  const off = generatorOf(secret).validate({ token: code, timestamp, window: STEPS_OFF });
  return off === null ? null : Math.floor(timestamp / 1000 / PERIOD_SECONDS) + off;
};

/** 80 random bits in four groups of letters and digits. */
const newSpareCode = (): string =>
  new Secret({ buffer: new Uint8Array(randomBytes(10)).buffer }).base32.match(/.{4}/g)!.join('-');

const hashOfSpare = (code: string): string =>
  hashToken(code.toUpperCase().replaceAll(/[^A-Z2-7]/g, ''));

/** A second step of signing in: a code that a phone shows (RFC 6238), or one of the spare codes that stand in for it. */
@Injectable()
export class SecondStepService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly attempts: RefusedAttempts,
    private readonly clock: Clock,
  ) {}

  /** Since when it is asked for, `null` for whoever signs in without. */
  of(personId: string): Promise<SecondStepModel | null> {
    return entering(this.dataSource, async (m) => {
      const row = await this.confirmed(m, personId);
      if (row === null) return null;
      return { since: row.confirmedAt!, spareCodes: await m.countBy(SpareCodeRow, { personId }) };
    });
  }

  /** A new secret, which counts once a code made with it was typed; one that was offered before is forgotten. */
  async offer(personId: string, name: string): Promise<SecondStepOfferModel> {
    const secret = new Secret({ size: 20 }).base32;
    await entering(this.dataSource, async (m) => {
      if ((await this.confirmed(m, personId)) !== null)
        throw new RequestError(
          'IN_USE',
          'A code is asked for already: end that first, then set it up with another phone.',
        );
      const row = {
        personId,
        secret,
        createdAt: this.clock.now(),
        confirmedAt: null,
        lastStep: '0',
      };
      await m.upsert(SecondStepRow, row, ['personId']);
    });
    const address = generatorOf(secret, name).toString();
    return { secret, address, qr: toQrCode(address) };
  }

  /** From now on a code is asked for; answers the spare codes, which are told only now. */
  async confirm(personId: string, code: string): Promise<string[]> {
    const offered = await entering(this.dataSource, (m) =>
      m.findOneBy(SecondStepRow, { personId, confirmedAt: IsNull() }),
    );
    if (offered === null)
      throw new RequestError('NOT_FOUND', 'No code is being set up: begin again.');
    await this.expectRight(personId, offered.secret, code);
    return entering(this.dataSource, (outside) =>
      outside.transaction(async (m) => {
        await m.update(SecondStepRow, { personId }, { confirmedAt: this.clock.now() });
        return this.newSpareCodes(m, personId);
      }),
    );
  }

  /** New spare codes; those of before end. */
  async renewSpareCodes(personId: string): Promise<string[]> {
    return entering(this.dataSource, (outside) =>
      outside.transaction(async (m) => {
        if ((await this.confirmed(m, personId)) === null)
          throw new RequestError('NOT_FOUND', 'No code is asked for: set that up first.');
        return this.newSpareCodes(m, personId);
      }),
    );
  }

  /** No code is asked for any more; whoever ends it shows that they have the phone, or a spare code. */
  async end(personId: string, code: string): Promise<void> {
    await this.expect(personId, code);
    await entering(this.dataSource, (outside) =>
      outside.transaction(async (m) => {
        for (const rows of [SecondStepRow, SpareCodeRow]) await m.delete(rows, { personId });
      }),
    );
  }

  /**
   * Lets whoever has no second step through, and whoever gives a code that is right and was not used before.
   *
   * @throws RequestError `CODE_NEEDED` without a code, `CODE_WRONG`, `TOO_MANY_ATTEMPTS`.
   */
  async expect(personId: string, code: string | null): Promise<void> {
    const row = await entering(this.dataSource, (m) => this.confirmed(m, personId));
    if (row === null) return;
    if (code === null || code.trim() === '')
      throw new RequestError(
        'CODE_NEEDED',
        'Type the code that your phone shows for Linewright, or one of your spare codes.',
      );
    if (!(await this.useSpareCode(personId, code)))
      await this.expectRight(personId, row.secret, code);
  }

  private async expectRight(personId: string, secret: string, code: string): Promise<void> {
    const attempt = await this.attempts.note(codes, personId);
    if (attempt === null)
      throw new RequestError(
        'TOO_MANY_ATTEMPTS',
        `Too many wrong codes: wait ${codes.minutes} minutes.`,
      );
    const step = stepOfCode(secret, code.replaceAll(/\s/g, ''), this.clock.now());
    if (step === null || !(await this.takeStep(personId, step)))
      throw new RequestError(
        'CODE_WRONG',
        'That code is not right any more, or not yet: type the one that the phone shows now. If it is refused again, the clocks of the phone and of this machine may differ.',
      );
    await this.attempts.forget(attempt);
  }

  /** False for a step that was taken before: of two who send one code at once, one gets in. */
  private async takeStep(personId: string, step: number): Promise<boolean> {
    const taken = await entering(this.dataSource, (m) =>
      m
        .createQueryBuilder()
        .update(SecondStepRow)
        .set({ lastStep: String(step) })
        .where('person_id = :personId AND last_step < :step', { personId, step })
        .execute(),
    );
    return taken.affected === 1;
  }

  private async useSpareCode(personId: string, code: string): Promise<boolean> {
    const codeHash = hashOfSpare(code);
    const used = await entering(this.dataSource, (m) =>
      m.delete(SpareCodeRow, { personId, codeHash }),
    );
    return used.affected === 1;
  }

  private async newSpareCodes(m: EntityManager, personId: string): Promise<string[]> {
    const made = Array.from({ length: SPARE_CODES }, newSpareCode);
    await m.delete(SpareCodeRow, { personId });
    await m.insert(
      SpareCodeRow,
      made.map((code) => ({ personId, codeHash: hashOfSpare(code) })),
    );
    return made;
  }

  private confirmed(m: EntityManager, personId: string): Promise<SecondStepRow | null> {
    return m.findOneBy(SecondStepRow, { personId, confirmedAt: Not(IsNull()) });
  }
}
