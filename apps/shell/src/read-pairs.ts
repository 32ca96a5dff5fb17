import { CsvReader } from './csv-reader.js';
import { InputError } from './read-pedigree.js';
import type { TagTable } from './tag-table.js';

/**
 * Reads two columns of tags. A first line of which neither value is a tag of the pedigree is taken for the header.
 *
 * @returns tag numbers, two a pair.
 * @throws {InputError} with every line that names an unknown tag or has not two fields.
 */
export async function readPairs(chunks: AsyncIterable<Buffer>, tags: TagTable): Promise<number[]> {
  const known = tags.count;
  const pairs: number[] = [];
  const messages: string[] = [];
  const encoder = new TextEncoder();
  // A tag met here for the first time gets a number beyond those of the pedigree.
  const numberOf = (text: string): number => {
    const bytes = encoder.encode(text);
    return tags.number(bytes, 0, bytes.length);
  };
  let begun = false;
  const reader = new CsvReader(
    (record) => {
      const isFirst = !begun;
      begun = true;
      if (record.fieldCount !== 2) {
        const fields = `there are ${record.fieldCount} fields`;
        messages.push(`Line ${record.line}: ${fields}. Give two tags.`);
        return;
      }
      const texts = [record.field(0), record.field(1)] as const;
      const numbers = [numberOf(texts[0]), numberOf(texts[1])] as const;
      if (numbers[0] < known && numbers[1] < known) {
        pairs.push(...numbers);
        return;
      }
      if (isFirst && numbers[0] >= known && numbers[1] >= known) return;
      texts.forEach((text, k) => {
        if (numbers[k]! < known) return;
        messages.push(
          `Line ${record.line}: "${text}" is not in the pedigree. Correct the tag or add the fish.`,
        );
      });
    },
    (fault) => messages.push(`Line ${fault.line}: ${fault.message}`),
  );
  for await (const chunk of chunks) reader.push(chunk);
  reader.finish();
  if (messages.length > 0) throw new InputError(messages);
  return pairs;
}
