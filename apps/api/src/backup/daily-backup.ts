import {
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnModuleDestroy,
} from '@nestjs/common';
import { asSystem } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import { BackupsService } from './backups.service.js';

/** Soon enough for who opens the program for a few minutes a day, late enough not to slow its start. */
const FIRST_LOOK_MS = 30_000;
const LOOK_MS = 20 * 60_000;

/** Looks now and then whether the day's backup is still to be made. */
@Injectable()
export class DailyBackup implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly log = new Logger('backup');
  private first: NodeJS.Timeout | null = null;
  private timer: NodeJS.Timeout | null = null;

  constructor(
    private readonly backups: BackupsService,
    private readonly clock: Clock,
  ) {}

  onApplicationBootstrap(): void {
    this.first = setTimeout(() => this.look(), FIRST_LOOK_MS).unref();
    this.timer = setInterval(() => this.look(), LOOK_MS).unref();
  }

  onModuleDestroy(): void {
    if (this.first !== null) clearTimeout(this.first);
    if (this.timer !== null) clearInterval(this.timer);
  }

  private look(): void {
    asSystem('backup', () => this.backups.daily(this.clock.now())).catch((error: unknown) => {
      this.log.error(`The day's backup could not be begun: ${String(error)}`);
    });
  }
}
