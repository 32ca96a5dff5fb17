export { EmbeddedDatabaseError, type EmbeddedDatabaseErrorCode } from './errors.js';
export { failureKind, type FailureKind } from './failure-words.js';
export {
  type EmbeddedDatabase,
  type EmbeddedDatabaseOptions,
  startEmbeddedDatabase,
  type WatchOptions,
} from './start-embedded-database.js';
