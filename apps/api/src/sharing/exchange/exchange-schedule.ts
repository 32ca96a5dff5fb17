import { Injectable, Logger, type OnApplicationBootstrap } from '@nestjs/common';
import { asSystem } from '../../access/acting.js';
import { JobQueue } from '../../jobs/job-queue.js';
import { ExchangeService } from './exchange.service.js';

const QUEUE = 'exchange';
/** Often enough for two who feed in the morning and look in the evening, seldom enough for a disk that sleeps. */
const EVERY = '*/10 * * * *';

/** Has the folders looked into now and then, by one of the processes, from when the first one is set. */
@Injectable()
export class ExchangeSchedule implements OnApplicationBootstrap {
  private readonly log = new Logger('exchange');

  constructor(
    private readonly queue: JobQueue,
    private readonly exchange: ExchangeService,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    if (!(await asSystem('exchange', () => this.exchange.isWanted()))) return;
    this.begin().catch((error: unknown) => {
      this.log.error(`Folders are not looked into: ${String(error)}`);
    });
  }

  begin(): Promise<void> {
    return this.queue.often(QUEUE, EVERY, () =>
      asSystem('exchange', () => this.exchange.all()).catch((error: unknown) => {
        this.log.error(`An exchange failed: ${String(error)}`);
      }),
    );
  }
}
