import type { ImportPreview } from '../../api/import.js';
import { plural } from '../../wording/figures.js';

type Counts = Pick<
  ImportPreview,
  'newLines' | 'skippedRows' | 'newFish' | 'knownFish' | 'newSpawns' | 'scores'
>;

/** What an import would do, in one sentence or two. */
export function importSentence(preview: Counts): string {
  const lines =
    preview.newLines.length === 0
      ? ''
      : `, ${plural(preview.newLines.length, 'new line')} (${preview.newLines.join(', ')})`;
  const skipped =
    preview.skippedRows === 0 ? '' : ` ${plural(preview.skippedRows, 'row')} not imported.`;
  return `${plural(preview.newFish, 'new fish', 'new fish')}, ${preview.knownFish} already recorded, ${plural(preview.newSpawns, 'new spawn')}, ${plural(preview.scores, 'score')}${lines}.${skipped}`;
}
