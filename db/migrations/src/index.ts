import { Records1764068400000 } from './1764068400000-records.js';
import { ReceivedEntries1764072000000 } from './1764072000000-received-entries.js';

/** Frozen history of the schema, oldest first. A change is a new file, never an edit of an old one. */
export const migrations = [Records1764068400000, ReceivedEntries1764072000000];
