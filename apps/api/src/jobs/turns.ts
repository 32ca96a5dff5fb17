import { RequestError } from '../errors/request-error.js';

interface Place {
  readonly enter: () => void;
}

const tooMuch = (whose: string): RequestError =>
  new RequestError('WORK_TOO_LONG', `${whose} is being worked out already: try again in a minute.`);

export interface MostTurns {
  readonly working: number;
  readonly waiting: number;
  readonly waitingOfOne: number;
}

/**
 * Lets a few work at a time; the others wait, as many as there is room for. Those who ask take turns about: one who asks for much waits
 * behind everybody who asks for little, and each one's own work is done in the order it came.
 */
export class Turns {
  private working = 0;
  private waiting = 0;
  /** By who asks, those served longest ago first. */
  private readonly rows = new Map<string, Place[]>();

  constructor(private readonly most: MostTurns) {}

  /**
   * @param asker who is served in turn with others; the same for all whose work is one person's.
   * @param gone aborted when nobody waits for it any more: it then gives its place in the row up.
   * @throws RequestError `WORK_TOO_LONG` when there is no room to wait; the reason of `gone`; and what the work throws.
   */
  async take<Answer>(
    asker: string,
    work: () => Promise<Answer>,
    gone?: AbortSignal,
  ): Promise<Answer> {
    gone?.throwIfAborted();
    if (this.working < this.most.working) this.working += 1;
    else await this.queue(asker, gone);
    try {
      return await work();
    } finally {
      // The turn passes on as it is: nobody who comes meanwhile gets between.
      const next = this.next();
      if (next === undefined) this.working -= 1;
      else next.enter();
    }
  }

  private next(): Place | undefined {
    const [first] = this.rows;
    if (first === undefined) return undefined;
    const [asker, row] = first;
    const place = row.shift();
    this.waiting -= 1;
    this.rows.delete(asker);
    // To the end: all others come before its next.
    if (row.length > 0) this.rows.set(asker, row);
    return place;
  }

  private queue(asker: string, gone?: AbortSignal): Promise<void> {
    const row = this.rows.get(asker) ?? [];
    if (row.length >= this.most.waitingOfOne) throw tooMuch('Much that you asked for');
    if (this.waiting >= this.most.waiting) throw tooMuch('Too much');
    return new Promise((resolve, reject) => {
      const leave = (): void => {
        const at = row.indexOf(place);
        row.splice(at, 1);
        this.waiting -= 1;
        if (row.length === 0) this.rows.delete(asker);
        reject(gone?.reason as Error);
      };
      const place: Place = {
        enter: () => {
          gone?.removeEventListener('abort', leave);
          resolve();
        },
      };
      gone?.addEventListener('abort', leave, { once: true });
      this.waiting += 1;
      this.rows.set(asker, row);
      row.push(place);
    });
  }
}
