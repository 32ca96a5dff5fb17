import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';

/** What is counted, and how many refusals of one caller are borne in how many minutes. */
export interface AttemptLimit {
  readonly what: 'sign-in' | 'sign-in code' | 'calendar';
  readonly allowed: number;
  readonly minutes: number;
}

const COUNT = `SELECT count(*)::int AS count FROM refused_attempt
  WHERE what = $1 AND address = $2 AND at > now() - make_interval(mins => $3)`;

/**
 * Refused attempts by caller, kept in the database and timed by its clock: every API process on it counts the same ones. An
 * attempt is noted before it is counted, so that of many sent at once no more than the limit get through.
 */
@Injectable()
export class RefusedAttempts {
  constructor(private readonly dataSource: DataSource) {}

  /** True when the caller was refused as often as is borne. */
  async tooMany(limit: AttemptLimit, address: string): Promise<boolean> {
    return (await this.count(limit, address)) >= limit.allowed;
  }

  /** Notes a refusal; answers its number, or `null` when it is one too many: then it is not kept. */
  async note(limit: AttemptLimit, address: string): Promise<string | null> {
    const [row] = (await this.query(
      'INSERT INTO refused_attempt (what, address) VALUES ($1, $2) RETURNING sequence',
      [limit.what, address],
    )) as { sequence: string }[];
    const sequence = row?.sequence ?? '';
    if ((await this.count(limit, address)) <= limit.allowed) {
      await this.query(`DELETE FROM refused_attempt WHERE at < now() - interval '1 day'`);
      return sequence;
    }
    await this.forget(sequence);
    return null;
  }

  /** Takes a note back: the attempt turned out to be a good one. */
  async forget(sequence: string): Promise<void> {
    await this.query('DELETE FROM refused_attempt WHERE sequence = $1', [sequence]);
  }

  /** Every caller may try again. */
  async forgetAll({ what }: AttemptLimit): Promise<void> {
    await this.query('DELETE FROM refused_attempt WHERE what = $1', [what]);
  }

  /** Counted before it is known who asks. */
  private query(sql: string, given: unknown[] = []): Promise<unknown> {
    return asSystem('entrance', () => this.dataSource.query(sql, given));
  }

  private async count({ what, minutes }: AttemptLimit, address: string): Promise<number> {
    const [row] = (await this.query(COUNT, [what, address, minutes])) as {
      count: number;
    }[];
    return row?.count ?? 0;
  }
}
