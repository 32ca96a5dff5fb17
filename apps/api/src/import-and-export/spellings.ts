import { looseSpelling } from '@linewright/pedigree';
import type { ImportNote } from './import-problem.js';

/** One way of writing a tag or code that stands for another. */
interface Matched {
  readonly as: string;
  readonly line: number;
  rows: number;
}

/**
 * Tags or codes that differ only in capitals or blanks are one: what is recorded decides how it is written, else the first
 * row of the file that has it. Where two recorded ones differ only so, each is read as it is written.
 */
export class Spellings {
  private readonly known: ReadonlySet<string>;
  /** By loose spelling; `null` when several are recorded. */
  private readonly byLoose = new Map<string, string | null>();
  private readonly matched = new Map<string, Matched>();

  constructor(recorded: Iterable<string>) {
    this.known = new Set(recorded);
    for (const text of this.known) {
      const loose = looseSpelling(text);
      this.byLoose.set(loose, this.byLoose.has(loose) ? null : text);
    }
  }

  /** Takes a text of the file for a new one, unless it is known already. */
  add(text: string): void {
    const loose = looseSpelling(text);
    if (!this.byLoose.has(loose)) this.byLoose.set(loose, text);
  }

  /** How the text is written where it is known; itself otherwise. Told as a note when it is written otherwise. */
  read(text: string, line: number): string {
    if (this.known.has(text)) return text;
    const as = this.byLoose.get(looseSpelling(text)) ?? text;
    if (as === text) return text;
    const before = this.matched.get(text);
    if (before === undefined) this.matched.set(text, { as, line, rows: 1 });
    else before.rows += 1;
    return as;
  }

  /** One note for each other way of writing. */
  notes(column: string, what: 'tag' | 'line' | 'spawn'): ImportNote[] {
    return [...this.matched].map(([text, { as, line, rows }]) => ({
      line,
      column,
      code: 'IMPORT_SPELLING' as const,
      value: text,
      remedy: '',
      message: `The ${what} "${text}" is read as "${as}"${rows === 1 ? '' : ` (${rows} times)`}: they differ only in capitals or blanks.`,
    }));
  }
}
