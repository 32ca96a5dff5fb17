import { withoutGuard } from '@linewright/pedigree';
import { doubled } from './tag-table.js';

/** A fault of the CSV text itself. */
export interface CsvFault {
  readonly line: number;
  readonly message: string;
}

const COMMA = 44;
const QUOTE = 34;
const APOSTROPHE = 39;
const SEMICOLON = 59;
const NOT_PLAIN = 128;
const LF = 10;
const CR = 13;

/**
 * Reads CSV (RFC 4180: quoted fields, doubled quotes, line breaks inside quotes, LF or CRLF) as bytes arrive, and hands over
 * one record at a time without making strings of fields nobody asks for.
 *
 * After `onRecord` returns, fields of that record can no longer be read. Blank lines are passed over.
 */
export class CsvReader {
  #rest: Uint8Array = new Uint8Array(0);
  #bytes: Buffer = Buffer.alloc(0);
  #starts = new Int32Array(16);
  #ends = new Int32Array(16);
  #quoted = new Uint8Array(16);
  #fields = 0;
  #plain = true;
  #line = 1;
  #nextLine = 1;
  #begun = false;
  /** Of the record at hand: told when it is complete, since one cut off by the end of a chunk is read again. */
  #faults: CsvFault[] = [];

  constructor(
    readonly onRecord: (record: CsvReader) => void,
    readonly onFault: (fault: CsvFault) => void,
  ) {}

  /** Line on which the record at hand begins; the header is line 1. */
  get line(): number {
    return this.#line;
  }

  get fieldCount(): number {
    return this.#fields;
  }

  /** Text of a field, without quotes, without blanks around an unquoted one and without the guard against formulas. */
  field(index: number): string {
    const text = this.#decode(this.#starts[index]!, this.#ends[index]!);
    return withoutGuard(this.#quoted[index] === 1 ? text.replaceAll('""', '"') : text.trim());
  }

  /**
   * Bounds of a field in `bytes`, without blanks, when its bytes are its text: neither quoted, nor with an apostrophe at its
   * beginning, nor beyond ASCII, and no semicolon, behind which an apostrophe may be a guard, in its record. Otherwise `isPlain` is
   * false and {@link field} must be asked.
   */
  isPlain(index: number): boolean {
    return (
      this.#plain && this.#quoted[index] === 0 && this.#bytes[this.start(index)] !== APOSTROPHE
    );
  }

  get bytes(): Uint8Array {
    return this.#bytes;
  }

  start(index: number): number {
    let start = this.#starts[index]!;
    const end = this.#ends[index]!;
    while (start < end && this.#bytes[start] === 32) start++;
    return start;
  }

  end(index: number): number {
    const start = this.#starts[index]!;
    let end = this.#ends[index]!;
    while (end > start && this.#bytes[end - 1] === 32) end--;
    return end;
  }

  push(chunk: Buffer): void {
    this.#bytes = this.#rest.length === 0 ? chunk : Buffer.concat([this.#rest, chunk]);
    this.#consume(false);
  }

  finish(): void {
    this.#bytes = Buffer.from(this.#rest);
    this.#consume(true);
  }

  #consume(last: boolean): void {
    let at = 0;
    if (!this.#begun && (this.#bytes.length >= 3 || last)) {
      this.#begun = true;
      // A byte order mark, as spreadsheets write it.
      if (this.#bytes[0] === 0xef && this.#bytes[1] === 0xbb && this.#bytes[2] === 0xbf) at = 3;
    }
    for (;;) {
      const next = this.#readRecord(at, last);
      if (next < 0) break;
      const blank = this.#fields === 1 && this.#quoted[0] === 0 && this.start(0) >= this.end(0);
      if (!blank) this.onRecord(this);
      at = next;
    }
    this.#rest = this.#bytes.subarray(at);
  }

  /** Marks the fields of the record at `at`; returns where the next begins, or -1 when the record is not yet complete. */
  #readRecord(at: number, last: boolean): number {
    const bytes = this.#bytes;
    const end = bytes.length;
    if (at >= end) return -1;
    this.#faults.length = 0;
    let fields = 0;
    let start = at;
    let seen = 0;
    let line = this.#nextLine;
    for (let k = at; ; k++) {
      if (k >= end) {
        if (!last) return -1;
        this.#mark(fields++, start, end, 0);
        return this.#finish(fields, seen, line, end);
      }
      const byte = bytes[k]!;
      if (byte === COMMA) {
        this.#mark(fields++, start, k, 0);
        start = k + 1;
      } else if (byte === LF) {
        const stop = k > start && bytes[k - 1] === CR ? k - 1 : k;
        this.#mark(fields++, start, stop, 0);
        return this.#finish(fields, seen, line + 1, k + 1);
      } else if (byte === QUOTE && k === start) {
        const close = this.#closingQuote(k + 1, last);
        if (close < 0) return -1;
        for (let q = k + 1; q < close; q++) {
          seen |= bytes[q]!;
          if (bytes[q] === LF) line++;
        }
        this.#mark(fields++, k + 1, close, 1);
        k = close + 1;
        if (k < end && bytes[k] === CR) k++;
        if (k >= end) {
          if (!last) return -1;
          return this.#finish(fields, seen, line, end);
        }
        if (bytes[k] === LF) return this.#finish(fields, seen, line + 1, k + 1);
        if (bytes[k] !== COMMA) {
          this.#faults.push({
            line: this.#nextLine,
            message: 'text follows a closing quote. Put the whole field in quotes.',
          });
          while (k < end && bytes[k] !== COMMA && bytes[k] !== LF) k++;
          if (k >= end || bytes[k] === LF) {
            return this.#finish(fields, seen, line + 1, Math.min(k + 1, end));
          }
        }
        start = k + 1;
        // A comma ends the line's text only together with one more, empty, field.
        if (start >= end && last) {
          this.#mark(fields++, end, end, 0);
          return this.#finish(fields, seen, line, end);
        }
      } else seen |= byte === SEMICOLON ? NOT_PLAIN : byte;
    }
  }

  #closingQuote(from: number, last: boolean): number {
    const bytes = this.#bytes;
    for (let k = from; k < bytes.length; k++) {
      if (bytes[k] !== QUOTE) continue;
      if (bytes[k + 1] === QUOTE) k++;
      // A quote at the very end of a chunk may be the first of two.
      else if (k + 1 < bytes.length || last) return k;
      else return -1;
    }
    if (!last) return -1;
    this.#faults.push({
      line: this.#nextLine,
      message: 'a quote is opened and never closed. Add the closing quote.',
    });
    return bytes.length;
  }

  #mark(field: number, start: number, end: number, quoted: number): void {
    if (field >= this.#starts.length) {
      this.#starts = doubled(this.#starts);
      this.#ends = doubled(this.#ends);
      const quotes = new Uint8Array(2 * this.#quoted.length);
      quotes.set(this.#quoted);
      this.#quoted = quotes;
    }
    this.#starts[field] = start;
    this.#ends[field] = end;
    this.#quoted[field] = quoted;
  }

  #finish(fields: number, seen: number, nextLine: number, next: number): number {
    this.#fields = fields;
    this.#plain = seen < NOT_PLAIN;
    this.#line = this.#nextLine;
    this.#nextLine = nextLine;
    for (const fault of this.#faults) this.onFault(fault);
    return next;
  }

  #decode(start: number, end: number): string {
    try {
      return utf8.decode(this.#bytes.subarray(start, end));
    } catch {
      this.onFault({
        line: this.#line,
        message: 'a field is not UTF-8 text. Save the file as UTF-8.',
      });
      return this.#bytes.subarray(start, end).toString('latin1');
    }
  }
}

const utf8 = new TextDecoder('utf-8', { fatal: true });
