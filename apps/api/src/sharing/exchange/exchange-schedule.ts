import { Inject, Injectable, Logger, type OnApplicationBootstrap } from '@nestjs/common';
import { asSystem } from '../../access/acting.js';
import { type Config } from '../../config/config.js';
import { CONFIG } from '../../config/config.token.js';
import { JobQueue } from '../../jobs/job-queue.js';
import { ExchangeService } from './exchange.service.js';

const QUEUE = 'exchange';

/** Has the folders looked into now and then, by one of the processes, from when the first one is set. */
@Injectable()
export class ExchangeSchedule implements OnApplicationBootstrap {
  private readonly log = new Logger('exchange');

  constructor(
    private readonly queue: JobQueue,
    private readonly exchange: ExchangeService,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    if (!(await asSystem('exchange', () => this.exchange.isWanted()))) return;
    this.begin().catch((error: unknown) => {
      this.log.error(`Folders are not looked into: ${String(error)}`);
    });
  }

  begin(): Promise<void> {
    const { exchangeMinutes: minutes } = this.config;
    const every = minutes === 60 ? '0 * * * *' : `*/${minutes} * * * *`;
    return this.queue.often(QUEUE, every, () =>
      asSystem('exchange', () => this.exchange.all()).catch((error: unknown) => {
        this.log.error(`An exchange failed: ${String(error)}`);
      }),
    );
  }
}
