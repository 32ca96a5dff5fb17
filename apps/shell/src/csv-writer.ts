import { once } from 'node:events';
import type { Writable } from 'node:stream';
import { withGuard } from '@linewright/pedigree';
import type { TagTable } from './tag-table.js';

const ROOM = 1 << 18;
const QUOTE = 34;

/** Gathers CSV as bytes into large pieces and waits when the reader of the pipe is slow. */
export class CsvWriter {
  #bytes = Buffer.allocUnsafe(ROOM);
  #at = 0;

  constructor(readonly to: Writable) {}

  /** Appends text as it stands; ASCII only. */
  ascii(text: string): void {
    if (this.#at + text.length > this.#bytes.length) this.#enlarge(text.length);
    for (let k = 0; k < text.length; k++) this.#bytes[this.#at++] = text.charCodeAt(k);
  }

  /** Appends a tag, guarded against being run by a spreadsheet, and quoted where RFC 4180 asks for it. */
  tag(tags: TagTable, tag: number): void {
    const own = tags.bytes(tag);
    const bytes = guarded(own);
    // Every byte may have to be doubled.
    if (this.#at + 2 * bytes.length + 2 > this.#bytes.length) this.#enlarge(2 * bytes.length + 2);
    if (!needsQuotes(bytes)) {
      if (bytes === own) this.#at = tags.copy(tag, this.#bytes, this.#at);
      else this.#at += Buffer.from(bytes).copy(this.#bytes, this.#at);
      return;
    }
    this.#bytes[this.#at++] = QUOTE;
    for (const byte of bytes) {
      if (byte === QUOTE) this.#bytes[this.#at++] = QUOTE;
      this.#bytes[this.#at++] = byte;
    }
    this.#bytes[this.#at++] = QUOTE;
  }

  /** True when enough has gathered to be sent: lets a tight loop wait only then. */
  get full(): boolean {
    return this.#at > ROOM / 2;
  }

  async flush(): Promise<void> {
    const piece = this.#bytes.subarray(0, this.#at);
    this.#bytes = Buffer.allocUnsafe(ROOM);
    this.#at = 0;
    if (piece.length > 0 && !this.to.write(piece)) await once(this.to, 'drain');
  }

  #enlarge(more: number): void {
    const larger = Buffer.allocUnsafe(2 * this.#bytes.length + more);
    larger.set(this.#bytes.subarray(0, this.#at));
    this.#bytes = larger;
  }
}

const APOSTROPHE = 39;

/** Behind these a spreadsheet may begin a cell of its own: a semicolon and the two line ends. */
const PARTS = [59, 10, 13];

/** Most tags begin with a letter or digit, hold no such mark, and are passed on as they are. */
function guarded(bytes: Uint8Array): Uint8Array {
  const first = bytes[0];
  if (first === undefined) return bytes;
  if (isHarmless(first) && !PARTS.some((part) => bytes.includes(part))) return bytes;
  const text = utf8.decode(bytes);
  const written = withGuard(text);
  return written === text ? bytes : Buffer.from(written);
}

const isHarmless = (byte: number): boolean =>
  byte > 32 && byte < 128 && byte !== APOSTROPHE && !'=+-@'.includes(String.fromCharCode(byte));

const utf8 = new TextDecoder();

function needsQuotes(bytes: Uint8Array): boolean {
  const last = bytes.length - 1;
  if (last >= 0 && (bytes[0]! <= 32 || bytes[last]! <= 32)) return true;
  for (let k = 0; k <= last; k++) {
    const byte = bytes[k]!;
    if (byte === QUOTE || byte === 44 || byte === 10 || byte === 13) return true;
  }
  return false;
}
