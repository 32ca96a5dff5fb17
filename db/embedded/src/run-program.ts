import { spawn } from 'node:child_process';
import { parse } from 'node:path';
import type { Account } from './account.js';

export interface ProgramResult {
  /** Exit status; `null` when it was ended by a signal or could not be started. */
  readonly status: number | null;
  /** Both output streams, in the order they came. */
  readonly output: string;
  /** Why it could not be started. */
  readonly failure?: Error;
}

/** What a terminal, a service manager or a closed terminal sends to every process of our group. */
const SENT_TO_THE_GROUP: ReadonlySet<NodeJS.Signals | null> = new Set([
  'SIGINT',
  'SIGTERM',
  'SIGHUP',
]);
/** Against whoever ends the program itself each time. */
const MOST_STARTS = 20;

interface Ended extends ProgramResult {
  /** A signal to our group ended it before it said anything. */
  readonly silenced: boolean;
}

/**
 * Runs one of PostgreSQL's programs to its end, as `account` when given, and never throws for its failure.
 *
 * For a moment after it is made a child is still in our group: Ctrl-C just then ends it before it has become the program. It is
 * started again, for a database is not to be left half made, nor running, because of when a key was pressed.
 */
export async function runProgram(
  program: string,
  args: readonly string[],
  account: Account | null,
  input?: string,
): Promise<ProgramResult> {
  for (let starts = 1; ; starts += 1) {
    const { silenced, ...result } = await runOnce(program, args, account, input);
    if (!silenced || starts === MOST_STARTS) return result;
  }
}

function runOnce(
  program: string,
  args: readonly string[],
  account: Account | null,
  input?: string,
): Promise<Ended> {
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd: parse(program).root,
      env: programEnvironment(),
      stdio: [input === undefined ? 'ignore' : 'pipe', 'pipe', 'pipe'],
      windowsHide: true,
      // In a group of its own: Ctrl-C is ours to answer, and would end it half-way.
      detached: process.platform !== 'win32',
      ...(account ? { uid: account.uid, gid: account.gid } : {}),
    });
    let output = '';
    const collect = (chunk: Buffer) => {
      output += chunk.toString('utf8');
    };
    child.stdout?.on('data', collect);
    child.stderr?.on('data', collect);
    child.stdin?.on('error', () => undefined);
    child.stdin?.end(input);
    child.on('error', (failure) => {
      resolve({ status: null, output, failure, silenced: false });
    });
    child.on('exit', (status, signal) => {
      // The server started by pg_ctl may keep the pipes open on some systems: do not wait for them to close for long.
      const done = () => {
        clearTimeout(timer);
        child.stdout?.destroy();
        child.stderr?.destroy();
        resolve({ status, output, silenced: output === '' && SENT_TO_THE_GROUP.has(signal) });
      };
      const timer = setTimeout(done, 250);
      child.on('close', done);
    });
  });
}

/** Our environment without PG* (they would steer the programs) and with plain English messages. */
function programEnvironment(): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(([name]) => !/^(PG|LC_|LANG)/.test(name));
  return { ...Object.fromEntries(kept), LC_ALL: 'C' };
}
