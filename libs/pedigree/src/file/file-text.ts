/** How the letters of a text file are written. */
export type TextEncoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE' | 'Windows-1252';

export interface FileText {
  readonly text: string;
  readonly encoding: TextEncoding;
}

/** Reads bytes in one of the encodings of Unicode, as `TextDecoder` of the WHATWG Encoding standard does. */
export type UnicodeDecoder = (
  bytes: Uint8Array,
  encoding: 'UTF-8' | 'UTF-16LE' | 'UTF-16BE',
) => string;

/** What 0x80 to 0x9F mean in Windows-1252 (WHATWG Encoding standard, index windows-1252); 0 where it has no letter. */
const UPPER_CONTROLS = [
  0x20ac, 0, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152,
  0, 0x017d, 0, 0, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161,
  0x203a, 0x0153, 0, 0x017e, 0x0178,
];

/** Bytes that are made into letters at a time: arguments of one call have a limit. */
const PIECE = 8_192;

/** UTF-16 without a mark: every other byte of plain letters is 0. So many bytes at the start are looked at. */
const LOOKED_AT = 1_024;

const REPLACEMENT = 0xfffd;

/** Length of the UTF-8 sequence that begins at `at` (RFC 3629, table in section 4), or 0 when there is none. */
const sequenceLength = (bytes: Uint8Array, at: number): number => {
  const first = bytes[at]!;
  if (first < 0x80) return 1;
  if (first < 0xc2 || first > 0xf4) return 0;
  const length = first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4;
  if (at + length > bytes.length) return 0;
  const low = first === 0xe0 ? 0xa0 : first === 0xf0 ? 0x90 : 0x80;
  const high = first === 0xed ? 0x9f : first === 0xf4 ? 0x8f : 0xbf;
  if (bytes[at + 1]! < low || bytes[at + 1]! > high) return 0;
  for (let k = 2; k < length; k++) if ((bytes[at + k]! & 0xc0) !== 0x80) return 0;
  return length;
};

const isUtf8 = (bytes: Uint8Array): boolean => {
  for (let at = 0; at < bytes.length;) {
    const length = sequenceLength(bytes, at);
    if (length === 0) return false;
    at += length;
  }
  return true;
};

/**
 * Finds how a file of text is encoded: by its byte order mark; else UTF-16 when every other byte of its beginning is 0;
 * else UTF-8 when all of it is valid UTF-8; else Windows-1252, which spreadsheets on Windows write as "CSV".
 *
 * Assumption: other one-byte encodings cannot be told from Windows-1252, so whoever reads the text should see some of its
 * letters. Cost: linear in the bytes.
 */
export function textEncoding(bytes: Uint8Array): TextEncoding {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'UTF-8';
  if (a === 0xff && b === 0xfe) return 'UTF-16LE';
  if (a === 0xfe && b === 0xff) return 'UTF-16BE';
  const zeros = [0, 0];
  const looked = Math.min(bytes.length, LOOKED_AT);
  for (let k = 0; k < looked; k++) if (bytes[k] === 0) zeros[k % 2]! += 1;
  if (looked >= 4 && zeros[1]! * 4 > looked) return 'UTF-16LE';
  if (looked >= 4 && zeros[0]! * 4 > looked) return 'UTF-16BE';
  return isUtf8(bytes) ? 'UTF-8' : 'Windows-1252';
}

/** A byte without a letter becomes U+FFFD, as in a text that was decoded wrongly: it is reported and never passed over. */
const fromWindows1252 = (bytes: Uint8Array): string => {
  const pieces: string[] = [];
  for (let from = 0; from < bytes.length; from += PIECE) {
    const codes = Array.from(bytes.subarray(from, from + PIECE), (byte) =>
      byte < 0x80 || byte > 0x9f ? byte : UPPER_CONTROLS[byte - 0x80]! || REPLACEMENT,
    );
    pieces.push(String.fromCharCode(...codes));
  }
  return pieces.join('');
};

/** The text of a file in the encoding given, or else the one that {@link textEncoding} finds, without its byte order mark. */
export function fileText(
  bytes: Uint8Array,
  decode: UnicodeDecoder,
  encoding: TextEncoding = textEncoding(bytes),
): FileText {
  const text = encoding === 'Windows-1252' ? fromWindows1252(bytes) : decode(bytes, encoding);
  return { encoding, text: text.replace(/^\uFEFF/, '') };
}

/**
 * Up to `most` different words of a text with letters beyond ASCII: shown, they let a reader see whether the encoding was
 * found rightly.
 */
export function lettersToCheck(text: string, most = 5): string[] {
  const found = new Set<string>();
  for (const [word] of text.matchAll(/[^\s,;"]*[^\0-\x7F][^\s,;"]*/g)) {
    found.add(word.slice(0, 40));
    if (found.size >= most) break;
  }
  return [...found];
}

/** Whether letters were lost before the text came here: the mark of a letter that could not be read, or a control letter. */
export const hasBrokenLetters = (text: string): boolean =>
  // eslint-disable-next-line no-control-regex -- control letters are what is looked for
  /[\uFFFD\0-\x08\x0E-\x1F\x7F-\x9F]/.test(text);
