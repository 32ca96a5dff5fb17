import { RequestError } from '../errors/request-error.js';
import { askerGone } from './asker.js';

/** Values in memory by their key: those used last, at most so many. */
export class LastUsed<Value> {
  private readonly held = new Map<string, Value>();

  constructor(private readonly most: number) {}

  get(key: string): Value | undefined {
    const value = this.held.get(key);
    if (value !== undefined) this.keep(key, value);
    return value;
  }

  keep(key: string, value: Value): void {
    this.held.delete(key);
    this.held.set(key, value);
    const [oldest] = this.held.keys();
    if (this.held.size > this.most && oldest !== undefined) this.held.delete(oldest);
  }

  drop(key: string): void {
    this.held.delete(key);
  }
}

/**
 * What is held for a key, or is worked out once for all who ask for it meanwhile; a failure is not kept. Work stops when whoever began it
 * has gone: who waited with him and is still there begins it anew.
 */
export const workedOutOnce = async <Answer>(
  held: LastUsed<Promise<Answer>>,
  key: string,
  work: () => Promise<Answer>,
): Promise<Answer> => {
  for (;;) {
    const standing = held.get(key);
    if (standing === undefined) break;
    try {
      return await standing;
    } catch (error) {
      if (!isGivenUp(error) || askerGone()?.aborted === true) throw error;
      if (held.get(key) === standing) held.drop(key);
    }
  }
  const answer = work();
  held.keep(key, answer);
  answer.catch(() => {
    if (held.get(key) === answer) held.drop(key);
  });
  return answer;
};

const isGivenUp = (error: unknown): boolean =>
  error instanceof RequestError && error.code === 'JOB_CANCELLED';
