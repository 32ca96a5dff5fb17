const MINUTES = 10;
const ALLOWED = 30;
const MOST_ADDRESSES = 10_000;

/**
 * Counts wrong calendar addresses by caller. A secret of 256 bits is not guessed; this keeps whoever tries from keeping the
 * database busy, so it need not be shared between processes.
 */
export class RefusedAddresses {
  private readonly refused = new Map<string, { count: number; until: number }>();

  constructor(private readonly now: () => number = Date.now) {}

  tooMany(caller: string): boolean {
    const entry = this.refused.get(caller);
    return entry !== undefined && entry.until > this.now() && entry.count >= ALLOWED;
  }

  note(caller: string): void {
    const now = this.now();
    const entry = this.refused.get(caller);
    if (entry !== undefined && entry.until > now) {
      entry.count += 1;
      return;
    }
    if (this.refused.size >= MOST_ADDRESSES) this.refused.clear();
    this.refused.set(caller, { count: 1, until: now + MINUTES * 60_000 });
  }
}
