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

/** What is held for a key, or is worked out once for all who ask for it meanwhile; a failure is not kept. */
export const workedOutOnce = <Answer>(
  held: LastUsed<Promise<Answer>>,
  key: string,
  work: () => Promise<Answer>,
): Promise<Answer> => {
  const standing = held.get(key);
  if (standing !== undefined) return standing;
  const answer = work();
  held.keep(key, answer);
  answer.catch(() => held.drop(key));
  return answer;
};
