import { createReadStream } from 'node:fs';
import { resolve } from 'node:path';
import type { Writable } from 'node:stream';
import type { PedigreeOptions } from '@linewright/pedigree';
import { InputError } from './read-pedigree.js';

/** Where a command runs. */
export interface Shell {
  /** What was typed behind the command. */
  readonly typed: readonly string[];
  /** The folder from which paths are meant. */
  readonly folder: string;
  readonly input: AsyncIterable<Buffer>;
  readonly out: Writable;
  readonly error: Writable;
}

/** Work of one command in a shell; throws InputError for what is wrong with its input. */
export type Command = (shell: Shell) => Promise<void>;

/** A file that was named, or standard input for `-`. */
export function open(shell: Shell, file: string): AsyncIterable<Buffer> {
  if (file === '-') return shell.input;
  return createReadStream(resolve(shell.folder, file), { highWaterMark: 1 << 20 });
}

/** What may be typed behind every command that reads a pedigree. */
export const everyCommand = {
  'add-unlisted': { type: 'boolean', default: false },
  'allow-selfing': { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
} as const;

interface Typed {
  readonly values: {
    readonly help: boolean;
    readonly 'add-unlisted': boolean;
    readonly 'allow-selfing': boolean;
  };
  readonly positionals: readonly string[];
}

/**
 * What was typed behind a command of one file, and how its pedigree is to be read; null when help was asked for, which is then printed.
 *
 * @throws InputError with the usage for what cannot be parsed, and when there is not one file.
 */
export function understood<Read extends Typed>(
  shell: Shell,
  parse: () => Read,
  usage: string,
): { file: string; values: Read['values']; reading: PedigreeOptions } | null {
  const { values, positionals } = parsed(parse, usage);
  if (values.help) {
    shell.out.write(`${usage}\n`);
    return null;
  }
  const [file] = positionals;
  if (file === undefined || positionals.length > 1) throw new InputError([usage]);
  const unlistedParents = values['add-unlisted'] ? 'add' : 'reject';
  return { file, values, reading: { unlistedParents, allowSelfing: values['allow-selfing'] } };
}

function parsed<Read>(parse: () => Read, usage: string): Read {
  try {
    return parse();
  } catch (error) {
    throw new InputError([error instanceof Error ? error.message : String(error), usage]);
  }
}

/** Tells on standard error how a file was read. */
export function tellNotes(shell: Shell, file: string, notes: readonly string[]): void {
  for (const note of notes) shell.error.write(`${file}: ${note}\n`);
}

/** Puts the file's name before the faults found in it, those that a library tells by a code of its own too. */
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
    if (isToldByCode(error)) throw new InputError([`${file}: ${error.message} (${error.code})`]);
    throw error;
  }
}

/** Libraries tell what is wrong with their input by a code; Node's own codes are faults of the program. */
const isToldByCode = (error: unknown): error is Error & { readonly code: string } =>
  error instanceof Error &&
  'code' in error &&
  typeof error.code === 'string' &&
  !error.code.startsWith('ERR_');

/** Runs a command; faults of its input go to standard error, one a line. Answers the code that the process is to end with. */
export async function runCommand(command: Command, shell: Shell): Promise<0 | 1> {
  try {
    await command(shell);
    return 0;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const message of error.messages) shell.error.write(`${message}\n`);
    return 1;
  }
}

/** Runs a command with what was typed to start this process. */
export async function runTyped(command: Command): Promise<void> {
  // A reader that closes the pipe early, such as head, has had enough: that is no error.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  process.exitCode = await runCommand(command, {
    typed: process.argv.slice(2),
    // npm runs scripts in the project's folder; paths are meant from where the user stands.
    folder: process.env['INIT_CWD'] ?? process.cwd(),
    input: process.stdin,
    out: process.stdout,
    error: process.stderr,
  });
}
