/** What the text on a label says: a vessel or a fish by its id, with whose house it was printed in, or a code. */
export type ReadLabel =
  | { readonly kind: 'vessel' | 'fish'; readonly id: string; readonly house: string | null }
  | { readonly kind: 'code'; readonly code: string };

/** Labels bear the address of a page: `…/vessels/ID?house=ID` or `…/fish/ID`, on whatever machine they were printed. */
const ADDRESS = /^https?:\/\/[^/\s]+\/(vessels|fish)\/([^/?#\s]+)(?:\?house=([^&#\s]+))?$/u;

/** Reads a label or a code that was typed; spaces around it do not count. */
export const readLabel = (text: string): ReadLabel => {
  const found = ADDRESS.exec(text.trim());
  if (found === null) return { kind: 'code', code: text.trim().replace(/\s+/gu, ' ') };
  const [, what, id = '', house = null] = found;
  return { kind: what === 'fish' ? 'fish' : 'vessel', id, house };
};
