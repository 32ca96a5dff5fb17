/** Characters before and after what was found. */
const AROUND = 40;

/**
 * A note as far as it stands around a text, whatever its capitals, with dots where it was cut; null where the text is not in it.
 *
 * @example wordsAround('Bought in May. Bites when fed.', 'bites') // 'Bought in May. Bites when fed.'
 */
export const wordsAround = (note: string | null, text: string): string | null => {
  if (note === null) return null;
  const plain = note.replace(/\s+/gu, ' ');
  const at = plain.toLowerCase().indexOf(text.toLowerCase());
  if (at < 0) return null;
  const from = Math.max(0, at - AROUND);
  const to = Math.min(plain.length, at + text.length + AROUND);
  return `${from > 0 ? '…' : ''}${plain.slice(from, to).trim()}${to < plain.length ? '…' : ''}`;
};
