import { RequestError } from '../errors/request-error.js';

/** Lets a few work at a time; the others wait in the order they came, as many as there is room for. */
export class Turns {
  private working = 0;
  private readonly waiting: (() => void)[] = [];

  constructor(
    private readonly mostWorking: number,
    private readonly mostWaiting: number,
  ) {}

  /** @throws RequestError `WORK_TOO_LONG` when there is no room to wait; and what the work throws. */
  async take<Answer>(work: () => Promise<Answer>): Promise<Answer> {
    if (this.working < this.mostWorking) this.working += 1;
    else await this.queue();
    try {
      return await work();
    } finally {
      // The turn passes on as it is: nobody who comes meanwhile gets between.
      const next = this.waiting.shift();
      if (next === undefined) this.working -= 1;
      else next();
    }
  }

  private queue(): Promise<void> {
    if (this.waiting.length >= this.mostWaiting) {
      throw new RequestError(
        'WORK_TOO_LONG',
        'Too much is being worked out already: try again in a minute.',
      );
    }
    return new Promise((resolve) => this.waiting.push(resolve));
  }
}
