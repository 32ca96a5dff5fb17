import { DAY } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, LessThan, MoreThan, type Repository } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { ProgramTokenRow } from '../stock/rows/way-in.entity.js';
import { hashToken, newToken, SEEN_EVERY } from './tokens.js';
import type { MakeTokenInput, NewProgramTokenModel, ProgramTokenModel } from './ways-in.model.js';

/** So that a token that lies about is known for what it is. */
const BEGINS = 'lw_';
const MOST_DAYS = 366;

/** Tokens by which programs ask in somebody's name, to read or to record as well. */
@Injectable()
export class ProgramTokens {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** Those of a person that have not ended, the newest first. */
  async of(personId: string): Promise<ProgramTokenModel[]> {
    const now = this.clock.now();
    return this.rows((rows) =>
      rows.find({ where: { personId, expiresAt: MoreThan(now) }, order: { createdAt: 'DESC' } }),
    );
  }

  async make(
    personId: string,
    { name, mayRecord, days }: MakeTokenInput,
  ): Promise<NewProgramTokenModel> {
    if (name.trim() === '')
      throw fieldError({ field: 'name', message: 'Say which program the token is for.' });
    if (!Number.isInteger(days) || days < 1 || days > MOST_DAYS)
      throw fieldError({
        field: 'days',
        message: `A token lasts 1 to ${MOST_DAYS} days; ${days} was given.`,
      });
    const now = this.clock.now();
    const secret = `${BEGINS}${newToken()}`;
    const row = {
      id: randomUUID(),
      tokenHash: hashToken(secret),
      ...{ personId, name: name.trim(), mayRecord, createdAt: now },
      expiresAt: new Date(now.getTime() + days * DAY),
    };
    await this.rows(async (rows) => {
      await rows.insert(row);
      await rows.delete({ expiresAt: LessThan(now) });
    });
    return { secret, token: { ...row, usedAt: null } };
  }

  /** @throws RequestError `NOT_FOUND` for one that is somebody else's, or nowhere. */
  async end(personId: string, id: string): Promise<void> {
    const { affected } = await this.rows((rows) => rows.delete({ id, personId }));
    if (affected === 0) throw notFound('token', id);
  }

  /** Whose a token is and what it lets a program do; `null` for one that has ended or never was. */
  async opened(secret: string): Promise<Pick<ProgramTokenRow, 'personId' | 'mayRecord'> | null> {
    const now = this.clock.now();
    return this.rows(async (rows) => {
      const row = await rows.findOneBy({
        tokenHash: hashToken(secret),
        expiresAt: MoreThan(now),
      });
      if (row !== null && now.getTime() - (row.usedAt?.getTime() ?? 0) >= SEEN_EVERY)
        await rows.update({ id: row.id }, { usedAt: now });
      return row;
    });
  }

  /** Asked before it is known who asks. */
  private rows<Answer>(
    work: (rows: Repository<ProgramTokenRow>) => Promise<Answer>,
  ): Promise<Answer> {
    return asSystem('entrance', () => work(this.dataSource.getRepository(ProgramTokenRow)));
  }
}
