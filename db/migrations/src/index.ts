import { Records1764068400000 } from './1764068400000-records.js';
import { ScoreSheetsAndPhotos1764074000000 } from './1764074000000-score-sheets-and-photos.js';

/** Frozen history of the schema, oldest first. A change is a new file, never an edit of an old one. */
export const migrations = [Records1764068400000, ScoreSheetsAndPhotos1764074000000];
