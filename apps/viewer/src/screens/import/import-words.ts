import type { ImportPreview } from '../../api/import.js';
import { roleWord, type ImportColumnRole } from '../../wording/words.js';
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

/** What each column is read as, and which are passed over, in a sentence or two. */
export function columnSentence(
  columns: readonly { header: string; role: ImportColumnRole; traitName: string | null }[],
): string {
  const read = columns.filter(({ role }) => role !== 'IGNORE');
  const skipped = columns.filter(({ role }) => role === 'IGNORE').map(({ header }) => header);
  const named = read.map(({ header, role, traitName }) => {
    const as = role === 'TRAIT' ? `trait ${traitName ?? header}` : shortRole(role);
    return `${header}: ${as}`;
  });
  const left = skipped.length === 0 ? '' : ` Not read: ${skipped.join(', ')}.`;
  return `${named.join('; ')}.${left}`;
}

const shortRole = (role: ImportColumnRole): string => roleWord[role].replace(/ \(.*\)$/, '');
