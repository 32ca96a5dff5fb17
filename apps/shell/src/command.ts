import { createReadStream } from 'node:fs';
import { resolve } from 'node:path';
import { InputError } from './read-pedigree.js';

/** npm runs scripts in the project's folder; paths are meant from where the user stands. */
export function open(file: string): AsyncIterable<Buffer> {
  if (file === '-') return process.stdin;
  const from = process.env['INIT_CWD'] ?? process.cwd();
  return createReadStream(resolve(from, file), { highWaterMark: 1 << 20 });
}

/** What may be typed behind every command that reads a pedigree. */
export const everyCommand = {
  'add-unlisted': { type: 'boolean', default: false },
  'allow-selfing': { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
} as const;

/** @throws InputError with the usage for what cannot be parsed. */
export function understood<Typed>(parse: () => Typed, usage: string): Typed {
  try {
    return parse();
  } catch (error) {
    throw new InputError([error instanceof Error ? error.message : String(error), usage]);
  }
}

/** Tells on standard error how a file was read. */
export function tellNotes(file: string, notes: readonly string[]): void {
  for (const note of notes) process.stderr.write(`${file}: ${note}\n`);
}

/** Puts the file's name before the faults found in it. */
export async function named<T>(file: string, read: () => Promise<T>): Promise<T> {
  try {
    return await read();
  } catch (error) {
    if (error instanceof InputError) {
      throw new InputError(error.messages.map((message) => `${file}: ${message}`));
    }
    if (error instanceof Error && 'code' in error && 'syscall' in error) {
      throw new InputError([`${file} cannot be read: ${error.message}`]);
    }
    throw error;
  }
}

/** Runs a command; faults of its input go to standard error, one a line, and end it with 1. */
export async function runCommand(main: () => Promise<void>): Promise<void> {
  // A reader that closes the pipe early, such as head, has had enough: that is no error.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  try {
    await main();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const message of error.messages) process.stderr.write(`${message}\n`);
    process.exitCode = 1;
  }
}
