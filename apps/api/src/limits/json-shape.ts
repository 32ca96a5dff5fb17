/** What a JSON text holds before it is parsed. */
export interface JsonBounds {
  /** Objects and lists inside one another. */
  readonly depth: number;
  /** Values, counted by the marks between them. */
  readonly parts: number;
}

const [QUOTE, BACKSLASH, COMMA, COLON] = [0x22, 0x5c, 0x2c, 0x3a];
const OPENS = new Set([0x5b, 0x7b]);
const CLOSES = new Set([0x5d, 0x7d]);

/**
 * True when a JSON text stays within bounds; nothing is built meanwhile, and it ends at the first mark too many. Texts that
 * are no JSON may pass: the parser refuses those.
 *
 * Cost: one step a byte.
 */
export const isWithin = (json: Uint8Array, { depth, parts }: JsonBounds): boolean => {
  let open = 0;
  let seen = 0;
  for (let at = 0; at < json.length; at++) {
    const byte = json[at]!;
    if (byte === QUOTE) {
      for (at++; at < json.length && json[at] !== QUOTE; at++) if (json[at] === BACKSLASH) at++;
    } else if (byte === COMMA || byte === COLON) {
      if (++seen > parts) return false;
    } else if (OPENS.has(byte)) {
      if (++open > depth || ++seen > parts) return false;
    } else if (CLOSES.has(byte)) open--;
  }
  return true;
};
