import type { RequestErrorCode } from '../errors/request-error.js';
import type { ImportAnswer, ImportTask } from './import-task.js';

export type ToImportWorker =
  | { readonly kind: 'task'; readonly databaseUrl: string; readonly task: ImportTask }
  | { readonly kind: 'keep' };

/** What the thread says: how far it is, that all is ready to be kept, then the answer or the error. */
export type FromImportWorker =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly answer: ImportAnswer }
  | {
      readonly kind: 'error';
      readonly code: RequestErrorCode | null;
      readonly message: string;
      readonly details: Readonly<Record<string, unknown>>;
    };
