import { AsyncResource } from 'node:async_hooks';
import { Injectable, Logger } from '@nestjs/common';
import PgBoss from 'pg-boss';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { JOBS_SCHEMA } from '../database/product-role.js';

const QUEUE = 'computation';
/** Arbitrary but fixed: processes that start the queue together lay its tables out one after the other. */
const START_LOCK = 7_040_023;

/**
 * Shares long computations between the API processes on one database (pg-boss, in a schema of its own). It is started by
 * the first that needs it, not with the app.
 */
@Injectable()
export class JobQueue {
  private readonly log = new Logger('jobs');
  private starting: Promise<PgBoss> | null = null;
  private stopped = false;
  /** Queues of such work that this process takes part in. */
  private readonly regular = new Set<string>();
  private work: ((id: string) => Promise<void>) | null = null;
  /** Made with the queue, so outside of every request: the one that starts it must not lend its own to all work after it. */
  private readonly outside = new AsyncResource('linewright jobs');

  constructor(private readonly dataSource: DataSource) {}

  /** What is done with the id of a computation, in whichever process takes it up. */
  onWork(work: (id: string) => Promise<void>): void {
    this.work = work;
  }

  async send(id: string): Promise<void> {
    const boss = await this.started();
    await boss.send(QUEUE, { id }, { retryLimit: 2, expireInMinutes: 60 });
  }

  /** Takes part in the work from now on. */
  async join(): Promise<void> {
    await this.started();
  }

  /** Has work done now and then by one of the processes on this database, from now on and after the next start. */
  async often(name: string, cron: string, work: () => Promise<void>): Promise<void> {
    const boss = await this.started();
    await boss.createQueue(name, { name, policy: 'short', retryLimit: 0, expireInSeconds: 3_600 });
    await boss.schedule(name, cron);
    if (this.regular.has(name)) return;
    this.regular.add(name);
    await boss.work(name, { pollingIntervalSeconds: 10, batchSize: 1 }, () =>
      this.outside.runInAsyncScope(work),
    );
  }

  async stop(): Promise<void> {
    this.stopped = true;
    const boss = await this.starting?.catch(() => null);
    await boss?.stop({ graceful: true, wait: true, timeout: 5_000 });
  }

  private started(): Promise<PgBoss> {
    if (this.stopped) return Promise.reject(new Error('The process is stopping.'));
    this.starting ??= asSystem('jobs', () => this.start()).catch((error: unknown) => {
      this.starting = null;
      throw error;
    });
    return this.starting;
  }

  private async start(): Promise<PgBoss> {
    const { url } = this.dataSource.options as { url?: string };
    const boss = new PgBoss({
      connectionString: url ?? '',
      application_name: 'linewright jobs',
      schema: JOBS_SCHEMA,
      max: 2,
      schedule: true,
    });
    boss.on('error', (error) => this.log.error(error.message));
    const runner = this.dataSource.createQueryRunner();
    try {
      await runner.query('SELECT pg_advisory_lock($1)', [START_LOCK]);
      await boss.start();
      await boss.createQueue(QUEUE, { name: QUEUE, policy: 'standard' });
    } finally {
      await runner.query('SELECT pg_advisory_unlock($1)', [START_LOCK]);
      await runner.release();
    }
    await boss.work<{ id: string }>(
      QUEUE,
      { pollingIntervalSeconds: 0.5, batchSize: 1 },
      async (jobs) => {
        for (const job of jobs) await this.outside.runInAsyncScope(() => this.work?.(job.data.id));
      },
    );
    return boss;
  }
}
