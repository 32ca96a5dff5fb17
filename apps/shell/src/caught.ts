import { Readable, Writable } from 'node:stream';
import { type Command, runCommand } from './command.js';

/** What a command printed, and the code that its process would have ended with. */
export interface Caught {
  readonly out: string;
  readonly error: string;
  readonly status: 0 | 1;
}

/** Runs a command within this process, with its paths meant from `folder`, and catches what it prints. */
export async function caught(
  command: Command,
  folder: string,
  typed: readonly string[],
  input = '',
): Promise<Caught> {
  const [out, error] = [new Kept(), new Kept()];
  const shell = { typed, folder, input: Readable.from([Buffer.from(input)]), out, error };
  const status = await runCommand(command, shell);
  return { out: out.text, error: error.text, status };
}

class Kept extends Writable {
  readonly #pieces: Buffer[] = [];

  override _write(piece: Buffer, _encoding: BufferEncoding, done: () => void): void {
    this.#pieces.push(piece);
    done();
  }

  get text(): string {
    return Buffer.concat(this.#pieces).toString();
  }
}
