import type { Repairs } from '@linewright/repair';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { ColumnChoice } from '../stock/rows/import-column-choice.js';
import type { ImportPreviewModel } from './import.model.js';
import type { ImportNote } from './import-problem.js';

export interface ImportCounts {
  readonly fish: number;
  readonly spawns: number;
  readonly lines: number;
  readonly scores: number;
  readonly traits: number;
  readonly unchanged: number;
  /** Rows that are no fish: sums under the table. */
  readonly skippedRows: number;
}

/** One file to look at or to take in, as it is handed to a thread. */
export interface ImportTask {
  readonly purpose: 'look' | 'take';
  readonly fileName: string;
  readonly text: string;
  readonly columns: readonly ColumnChoice[] | null;
  readonly repairs: Repairs | null;
  /** For whom it is done; the records are of the person whose records they keep. */
  readonly account: SignedInPerson;
  /** When it is taken in, in milliseconds since 1970. */
  readonly at: number;
  /** That day where the person is, `YYYY-MM-DD`. */
  readonly day: string;
  /** The last day on which a fish of the file can have hatched there. */
  readonly latestDay: string;
  /** The long computation that it is: ended in the same transaction as the rows are saved. */
  readonly computationId: string | null;
}

/** The task as a thread with a connection of its own is given it. */
export interface ImportInThread {
  readonly databaseUrl: string;
  readonly task: ImportTask;
}

export interface ImportWatcher {
  readonly onProgress?: (share: number) => void;
  /** Looked at between steps, and while rows are sent. */
  readonly signal?: AbortSignal;
  /** Asked when all is written and checked, before it is kept. */
  readonly mayKeep?: () => Promise<boolean>;
}

export interface ImportAnswer {
  readonly preview?: ImportPreviewModel;
  readonly counts?: ImportCounts;
  /** What was read otherwise than it stands in the file. */
  readonly notes?: readonly ImportNote[];
}
