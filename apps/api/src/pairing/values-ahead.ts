import {
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnModuleDestroy,
} from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { judgingState } from '../stock/judging-state.js';
import { linesWithAims } from '../stock/purpose-rows.js';
import { JudgingService } from './judging.service.js';

/** Between two looks: while someone scores fish one after the other, nothing is begun. */
const LOOK_MS = 30_000;
/** Lines that are made ready; each is held in memory for who looks. */
const MOST_LINES = 6;
/** Who is said to have asked for it. */
export const AHEAD_OF_A_LOOK = 'ahead of a look';

/**
 * Works out what the pairs of a line are judged by before someone looks at a proposal or a route: the values of the traits it aims at, how their errors
 * go together, and what its fish may carry. Soon after the start, and once records were left alone for the time between two looks.
 */
@Injectable()
export class ValuesAhead implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly log = new Logger('values');
  private timer: NodeJS.Timeout | null = null;
  private seen = '';
  private done = '';
  private stopped = false;

  constructor(
    private readonly dataSource: DataSource,
    private readonly judging: JudgingService,
  ) {}

  onApplicationBootstrap(): void {
    this.timer = setInterval(() => {
      this.look().catch((error: unknown) => {
        this.log.error(`What records changed could not be read: ${String(error)}`);
      });
    }, LOOK_MS).unref();
  }

  onModuleDestroy(): void {
    this.stopped = true;
    if (this.timer !== null) clearInterval(this.timer);
  }

  /** Begins with what changed since it was last worked out, if nothing changed since the look before. */
  look(): Promise<void> {
    return asSystem('jobs', async () => {
      const state = await judgingState(this.dataSource);
      const quiet = state === this.seen;
      this.seen = state;
      if (!quiet || state === this.done) return;
      this.done = state;
      const lines = await linesWithAims(this.dataSource.manager);
      for (const lineId of lines.slice(0, MOST_LINES)) await this.ask(lineId);
    });
  }

  /** What cannot be worked out is told where someone looks at it. */
  private async ask(lineId: string): Promise<void> {
    if (this.stopped) return;
    try {
      await this.judging.stock({ lineIds: [lineId] }, AHEAD_OF_A_LOOK);
    } catch (error) {
      this.log.debug(`The line ${lineId} was not made ready: ${String(error)}`);
    }
  }
}
