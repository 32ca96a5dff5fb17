import { RequestError } from '../errors/request-error.js';

/** Lets a few work at a time; the others wait in the order they came, as many as there is room for. */
export class Turns {
  private working = 0;
  private waiting: (() => void)[] = [];

  constructor(
    private readonly mostWorking: number,
    private readonly mostWaiting: number,
  ) {}

  /**
   * @param gone aborted when nobody waits for it any more: it then gives its place in the row up.
   * @throws RequestError `WORK_TOO_LONG` when there is no room to wait; the reason of `gone`; and what the work throws.
   */
  async take<Answer>(work: () => Promise<Answer>, gone?: AbortSignal): Promise<Answer> {
    gone?.throwIfAborted();
    if (this.working < this.mostWorking) this.working += 1;
    else await this.queue(gone);
    try {
      return await work();
    } finally {
      // The turn passes on as it is: nobody who comes meanwhile gets between.
      const next = this.waiting.shift();
      if (next === undefined) this.working -= 1;
      else next();
    }
  }

  private queue(gone?: AbortSignal): Promise<void> {
    if (this.waiting.length >= this.mostWaiting) {
      throw new RequestError(
        'WORK_TOO_LONG',
        'Too much is being worked out already: try again in a minute.',
      );
    }
    return new Promise((resolve, reject) => {
      const leave = (): void => {
        this.waiting = this.waiting.filter((one) => one !== enter);
        reject(gone?.reason as Error);
      };
      const enter = (): void => {
        gone?.removeEventListener('abort', leave);
        resolve();
      };
      gone?.addEventListener('abort', leave, { once: true });
      this.waiting.push(enter);
    });
  }
}
