import type { Bench } from './bench-facts.js';
import type { BenchEntries } from './use-bench-entries.js';

/** What every part of the bench is given. */
export interface BenchParts {
  readonly bench: Bench;
  readonly entries: BenchEntries;
  readonly on: string;
  /** Said to screen readers. */
  readonly say: (words: string) => void;
}
