import {
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnModuleDestroy,
} from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { judgingState } from '../stock/judging-state.js';
import { traitsAimedAt } from '../stock/purpose-rows.js';
import { TraitMeritService } from './trait-merit.service.js';

/** Between two looks: while someone scores fish one after the other, nothing is begun. */
const LOOK_MS = 30_000;
const BY = 'ahead of a look';

/**
 * Works out the values of the traits that lines aim at before someone looks at a proposal or a route: soon after the start, and once records
 * were left alone for the time between two looks.
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
    private readonly merit: TraitMeritService,
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
      for (const traitId of await traitsAimedAt(this.dataSource.manager)) await this.ask(traitId);
    });
  }

  /** What cannot be worked out is told where someone looks at it. */
  private async ask(traitId: string): Promise<void> {
    if (this.stopped) return;
    try {
      await this.merit.of(traitId, BY);
    } catch (error) {
      this.log.debug(`Values of the trait ${traitId} were not worked out ahead: ${String(error)}`);
    }
  }
}
