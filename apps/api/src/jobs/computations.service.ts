import { randomUUID } from 'node:crypto';
import {
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnModuleDestroy,
} from '@nestjs/common';
import { DataSource, Not } from 'typeorm';
import { accountWithId, ownerAccount } from '../accounts/known-accounts.js';
import { actAs, asSystem } from '../access/acting.js';
import type { Actor } from '../access/actor.js';
import { toldError } from '../errors/told-error.js';
import { RequestError, fieldError, notFound } from '../errors/request-error.js';
import { ComputationRow } from '../stock/rows/computation.entity.js';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import { heartbeat } from './heartbeat.js';
import { JobQueue } from './job-queue.js';
import { rowsOf } from './rows-of.js';

export interface Watcher {
  /** Of the computation itself, for work that ends it together with what it saves. */
  readonly id: string;
  readonly onProgress: (share: number) => void;
  /** Stores the answer as it stands, to be read while the work goes on, and after it was stopped. */
  readonly onSoFar: (answer: unknown) => void;
  readonly signal: AbortSignal;
}

/** Works out one kind of computation; what it gives back is stored as JSON. */
export type Worker = (subject: string, evidence: string, watcher: Watcher) => Promise<unknown>;

export interface Wanted {
  readonly kind: string;
  readonly subject: string;
  /** State of the records it shall be computed from. */
  readonly evidence: string;
}

/** Records changed before it was begun: the answer would be for a state that is gone. */
export class EvidenceMoved extends Error {}

/** A running one that was not heard of for so long is taken up anew. */
const LOST = `interval '30 seconds'`;

const CLAIM = `
  UPDATE computation SET state = 'running', started_at = now(), seen_at = now(), progress = 0, result = NULL
  WHERE id = $1 AND (state = 'queued' OR (state = 'running' AND seen_at < now() - ${LOST}))
  RETURNING id, kind, subject, evidence, asked_by_account_id AS "askedByAccountId"`;
/** Nothing was heard of it: by the clock of the database, which is one for all processes. */
const SILENT = `SELECT 1 FROM computation WHERE id = $1 AND coalesce(seen_at, created_at) < now() - ${LOST}`;
const END = `
  UPDATE computation SET state = $2, result = coalesce($3::jsonb, result), error_code = $4, error_message = $5, ended_at = now(),
    seen_at = now(), progress = CASE WHEN $2 = 'done' THEN 1 ELSE progress END
  WHERE id = $1 AND state = 'running' AND ($2 <> 'done' OR NOT stop_asked) RETURNING id`;
const REQUEUE = `UPDATE computation SET state = 'queued', progress = 0 WHERE id = $1 AND state = 'running'`;
/** Answers for states of the records that are gone. */
const FORGET = `
  DELETE FROM computation WHERE kind = $1 AND subject = $2 AND evidence <> $3
    AND state IN ('done', 'failed', 'cancelled', 'outdated')`;

/** Never begun: it was worked out within a request. */
const KEEP = `
  INSERT INTO computation (id, kind, subject, evidence, state, progress, asked_by, seen_at, ended_at, result)
  VALUES ($1, $2, $3, $4, 'done', 1, $5, now(), now(), $6::jsonb) ON CONFLICT DO NOTHING`;

const FORGET_OLD = `
  DELETE FROM computation WHERE kind = $1 AND state IN ('done', 'cancelled', 'failed', 'outdated')
    AND ended_at < now() - interval '1 day'`;

/** Long computations: asked for once by whichever process, worked out by one, their state and result read by all. */
@Injectable()
export class ComputationsService implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly log = new Logger('jobs');
  private readonly workers = new Map<string, Worker>();
  private readonly running = new Map<string, AbortController>();
  private stopping = false;

  constructor(
    private readonly dataSource: DataSource,
    private readonly queue: JobQueue,
  ) {
    queue.onWork((id) => asSystem('jobs', () => this.work(id)));
  }

  /** Says how computations of a kind are worked out. */
  register(kind: string, worker: Worker): void {
    this.workers.set(kind, worker);
  }

  async onApplicationBootstrap(): Promise<void> {
    const waiting = await asSystem('jobs', () =>
      this.repository.existsBy([{ state: 'queued' }, { state: 'running' }]),
    );
    if (waiting) this.queue.join().catch((error: Error) => this.log.error(error.message));
  }

  /** Lets go of what runs here, so that another process, or this one after its next start, takes it up. */
  async onModuleDestroy(): Promise<void> {
    this.stopping = true;
    for (const controller of this.running.values()) controller.abort();
    const until = performance.now() + 5_000;
    while (this.running.size > 0 && performance.now() < until)
      await new Promise((resolve) => setTimeout(resolve, 20));
    await this.queue.stop();
  }

  async one(id: string): Promise<ComputationRow> {
    const row = await this.repository.findOneBy({ id });
    if (row === null) throw notFound('computation', id);
    return this.revived(row);
  }

  /** Newest first; without answers that were worked out within a request. */
  list(first: number, after: string | null): Promise<KeysetPage<ComputationRow>> {
    const newestFirst = { key: 'c.created_at', type: 'timestamptz', direction: 'DESC' } as const;
    const query = this.repository
      .createQueryBuilder('c')
      .where(`NOT (c.state = 'done' AND c.started_at IS NULL)`);
    return keysetPage(query, 'c', newestFirst, first, after ?? undefined);
  }

  /** The computation wanted, begun when nobody has asked for it yet. One that was stopped stays stopped. */
  async want(wanted: Wanted, by: string): Promise<ComputationRow> {
    const standing = await this.latest(wanted);
    if (standing !== null) return standing;
    await this.repository
      .createQueryBuilder()
      .insert()
      .values({ id: randomUUID(), ...wanted, askedBy: by })
      .orIgnore()
      .execute();
    const row = await this.latest(wanted);
    if (row === null) throw new Error('A computation just asked for is not there.');
    await this.queue.send(row.id);
    return row;
  }

  /** The stored answer for exactly this state of the records, or null. */
  async answer(wanted: Wanted): Promise<unknown> {
    const row = await this.repository.findOne({
      where: { ...wanted, state: 'done' },
      select: { id: true, result: true },
    });
    return row?.result ?? null;
  }

  /** States of the records about that subject for which an answer is stored, the newest first. */
  async answeredStates(kind: string, subject: string): Promise<string[]> {
    const rows = await this.repository.find({
      where: { kind, subject, state: 'done' },
      select: { id: true, evidence: true },
      order: { endedAt: 'DESC' },
    });
    return rows.map(({ evidence }) => evidence);
  }

  /** Stores an answer that was worked out within a request, for all processes; one stored meanwhile stays. */
  async keep({ kind, subject, evidence }: Wanted, answer: object, by: string): Promise<void> {
    const result = JSON.stringify(answer);
    await this.dataSource.query(KEEP, [randomUUID(), kind, subject, evidence, by, result]);
    await this.dataSource.query(FORGET, [kind, subject, evidence]);
  }

  /** The answer where it is done; else as far as it is, and the computation that goes on, begun when nobody has asked for it yet. */
  async standing(
    wanted: Wanted,
    by: string,
  ): Promise<{ answer: unknown; waiting: ComputationRow | null }> {
    const stored = await this.answer(wanted);
    if (stored !== null) return { answer: stored, waiting: null };
    await this.forgetOfBefore(wanted.kind);
    const row = await this.want(wanted, by);
    // It may have come to its end since the answer was looked for.
    return { answer: await this.soFar(row.id), waiting: row.state === 'done' ? null : row };
  }

  /** The answer of a computation as far as it is, or was when it was stopped; null before the first. */
  async soFar(id: string): Promise<unknown> {
    const row = await this.repository.findOne({
      where: { id },
      select: { id: true, result: true },
    });
    return row?.result ?? null;
  }

  /**
   * The newest asked for, whatever became of it, save one that is outdated: the records may be as they were again.
   * Sent once more where its process is gone.
   */
  async latest({ kind, subject, evidence }: Wanted): Promise<ComputationRow | null> {
    const row = await this.repository.findOne({
      where: { kind, subject, evidence, state: Not('outdated') },
      order: { createdAt: 'DESC' },
    });
    return row === null ? null : this.revived(row);
  }

  /** The newest about each of these subjects, with its answer where it has one: for a list of them. */
  async latestOf(
    kind: string,
    subjects: readonly string[],
  ): Promise<Map<string, { computation: ComputationRow; result: unknown }>> {
    const rows = await this.repository
      .createQueryBuilder('c')
      .addSelect('c.result')
      .where(
        `c.kind = :kind AND c.subject = ANY(:subjects) AND c.evidence = '' AND c.state <> 'outdated'`,
        {
          kind,
          subjects,
        },
      )
      .orderBy('c.created_at', 'ASC')
      .getMany();
    const newest = new Map(rows.map((row) => [row.subject, row]));
    return new Map(
      await Promise.all(
        [...newest].map(async ([subject, row]) => {
          const { result } = row;
          return [subject, { computation: await this.revived(row), result }] as const;
        }),
      ),
    );
  }

  async cancel(id: string): Promise<ComputationRow> {
    await this.dataSource.query(
      `UPDATE computation SET stop_asked = true,
         ended_at = CASE WHEN state = 'queued' THEN now() ELSE ended_at END,
         state = CASE WHEN state = 'queued' THEN 'cancelled' ELSE state END
       WHERE id = $1 AND state IN ('queued', 'running')`,
      [id],
    );
    this.running.get(id)?.abort();
    return this.one(id);
  }

  /** Asks again for one that was stopped or failed. */
  async again(id: string, by: string): Promise<ComputationRow> {
    const row = await this.one(id);
    if (row.state !== 'cancelled' && row.state !== 'failed') {
      throw fieldError({
        field: 'id',
        message: 'Only a stopped or failed computation is begun again.',
      });
    }
    const { kind, subject, evidence } = row;
    await this.repository.delete({ id });
    return this.want({ kind, subject, evidence }, by);
  }

  /** Lets go of answers of more than a day ago: to choices that nobody came back to. */
  async forgetOfBefore(kind: string): Promise<void> {
    await this.dataSource.query(FORGET_OLD, [kind]);
  }

  /** Lets go of what has ended and is about none of these subjects, which an SQL query gives as texts. */
  async forgetOthers(kinds: readonly string[], subjects: string): Promise<void> {
    await this.dataSource.query(
      `DELETE FROM computation WHERE kind = ANY($1) AND ended_at IS NOT NULL AND subject NOT IN (${subjects})`,
      [kinds],
    );
  }

  private get repository() {
    return this.dataSource.getRepository(ComputationRow);
  }

  /** Sends one whose process is gone, or that was never taken up, once more. */
  private async revived(row: ComputationRow): Promise<ComputationRow> {
    if (!['queued', 'running'].includes(row.state)) return row;
    const [silent] = (await this.dataSource.query(SILENT, [row.id])) as object[];
    if (silent !== undefined) await this.queue.send(row.id);
    else if (row.state === 'queued') await this.queue.join();
    return row;
  }

  private async work(id: string): Promise<void> {
    if (this.stopping) return;
    const [row] = rowsOf<ComputationRow>(await this.dataSource.query(CLAIM, [id]));
    if (row === undefined) return;
    const controller = new AbortController();
    this.running.set(id, controller);
    const heart = heartbeat({
      dataSource: this.dataSource,
      id,
      onStop: () => controller.abort(),
      onError: (error) => this.log.error(error.message),
    });
    try {
      const worker = this.workers.get(row.kind);
      if (worker === undefined) throw new Error(`Nothing here works out "${row.kind}".`);
      const watcher = {
        id,
        onProgress: heart.reached,
        onSoFar: heart.soFar,
        signal: controller.signal,
      };
      const asker = await this.askerOf(row);
      const result = await actAs(asker, () => worker(row.subject, row.evidence, watcher));
      await heart.end();
      const ended = await this.end(id, 'done', JSON.stringify(result), null, null);
      // Its stop was asked for as it came to its end: whoever was answered "stopped" finds it so.
      if (!ended) await this.endStopped(id);
      await this.dataSource.query(FORGET, [row.kind, row.subject, row.evidence]);
    } catch (error) {
      await this.endBadly(id, error, controller.signal.aborted);
    } finally {
      await heart.end();
      this.running.delete(id);
    }
  }

  /** For whom it is worked out: what they may not see stays out of it. Asked for before accounts were noted, it is the owner's. */
  private async askerOf({ askedByAccountId }: ComputationRow): Promise<Actor> {
    const account = await (askedByAccountId === null
      ? ownerAccount(this.dataSource)
      : accountWithId(this.dataSource, askedByAccountId));
    if (account === null)
      throw new RequestError('JOB_CANCELLED', 'Whoever asked for it has no account here any more.');
    return { kind: 'account', ...account };
  }

  private async endBadly(id: string, error: unknown, aborted: boolean): Promise<void> {
    if (aborted && this.stopping) {
      await this.dataSource.query(REQUEUE, [id]);
    } else if (aborted || (error instanceof RequestError && error.code === 'JOB_CANCELLED')) {
      await this.endStopped(id);
    } else if (error instanceof EvidenceMoved) {
      await this.end(
        id,
        'outdated',
        null,
        null,
        'Records changed meanwhile: it is worked out again when asked for.',
      );
    } else {
      const told = toldError(error);
      if (told === null) this.log.error(error instanceof Error ? error.stack : String(error));
      await this.end(
        id,
        'failed',
        null,
        told?.code ?? 'INTERNAL',
        told?.message ?? "Something went wrong; details are in the server's log.",
      );
    }
  }

  private async endStopped(id: string): Promise<void> {
    await this.end(id, 'cancelled', null, 'JOB_CANCELLED', 'It was stopped before its end.');
  }

  /** False: it had ended before, or it was done and its stop had been asked for. */
  private async end(
    id: string,
    state: string,
    result: string | null,
    code: string | null,
    message: string | null,
  ): Promise<boolean> {
    const ended: unknown = await this.dataSource.query(END, [id, state, result, code, message]);
    return rowsOf(ended).length > 0;
  }
}
