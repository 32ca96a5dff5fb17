import { Records1764068400000 } from './1764068400000-records.js';
import { Water1764073000000 } from './1764073000000-water.js';

/** Frozen history of the schema, oldest first. A change is a new file, never an edit of an old one. */
export const migrations = [Records1764068400000, Water1764073000000];
