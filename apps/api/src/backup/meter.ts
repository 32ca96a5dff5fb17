import { createHash } from 'node:crypto';
import { Transform, type TransformCallback } from 'node:stream';

const LINE_END = 10;

export interface Measured {
  readonly bytes: number;
  /** Line ends: rows, in COPY's text format. */
  readonly rows: number;
  readonly sha256: string;
}

/** Passes bytes on and measures them. */
export class Meter extends Transform {
  private readonly hash = createHash('sha256');
  private bytes = 0;
  private rows = 0;
  private sha256 = '';

  override _transform(chunk: Buffer, _encoding: BufferEncoding, done: TransformCallback): void {
    this.hash.update(chunk);
    this.bytes += chunk.length;
    for (let at = chunk.indexOf(LINE_END); at >= 0; at = chunk.indexOf(LINE_END, at + 1))
      this.rows++;
    done(null, chunk);
  }

  override _flush(done: TransformCallback): void {
    this.sha256 = this.hash.digest('hex');
    done();
  }

  /** Once everything has gone through. */
  get measured(): Measured {
    if (this.sha256 === '') throw new Error('Not everything has gone through yet.');
    return { bytes: this.bytes, rows: this.rows, sha256: this.sha256 };
  }
}
