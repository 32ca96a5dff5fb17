import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { ComputationsService, Wanted } from './computations.service.js';
import { LastUsed, workedOutOnce } from './last-used.js';

/** An answer, or what it is waited for. */
export type Kept<Answer> =
  | { readonly answer: Answer; readonly waiting: null }
  | { readonly answer: null; readonly waiting: ComputationRow };

/**
 * Answers that belong to the state of the records they were made from: held in memory by this process, stored for all of them, and worked
 * out once for each state, whether within a request or as a long computation. They can be written as JSON.
 */
export class KeptAnswers<Answer extends object> {
  private readonly held: LastUsed<Promise<Answer>>;

  /** @param most answers held in memory, the last asked for. */
  constructor(
    private readonly computations: ComputationsService,
    most: number,
  ) {
    this.held = new LastUsed(most);
  }

  /** What is held or stored, or is worked out now, within the request. */
  atOnce(wanted: Wanted, by: string, work: () => Promise<Answer>): Promise<Answer> {
    return workedOutOnce(this.held, keyOf(wanted), async () => {
      const stored = await this.stored(wanted);
      if (stored !== null) return stored;
      const answer = await work();
      await this.computations.keep(wanted, answer, by);
      return answer;
    });
  }

  /** What is held or stored, or the long computation that makes it. */
  async inTime(wanted: Wanted, by: string): Promise<Kept<Answer>> {
    const answer = await this.ifThere(wanted);
    if (answer === null) return { answer, waiting: await this.computations.want(wanted, by) };
    return { answer, waiting: null };
  }

  /** What is held or stored; nothing is begun where there is none. */
  async ifThere(wanted: Wanted): Promise<Answer | null> {
    const key = keyOf(wanted);
    const answer = (await this.held.get(key)) ?? (await this.stored(wanted));
    if (answer !== null) this.held.keep(key, Promise.resolve(answer));
    return answer;
  }

  private async stored(wanted: Wanted): Promise<Answer | null> {
    return (await this.computations.answer(wanted)) as Answer | null;
  }
}

const keyOf = ({ kind, subject, evidence }: Wanted): string =>
  JSON.stringify([kind, subject, evidence]);
