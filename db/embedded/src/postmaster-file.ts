import { execFileSync } from 'node:child_process';
import { readFileSync, readlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { systemCode } from './errors.js';
import { processIsAlive } from './process-mark.js';

/** What a server wrote about itself into `postmaster.pid`. */
export interface PostmasterFile {
  readonly pid: number;
  /** Line 4; 0 when the server has not got as far as its port. */
  readonly port: number;
}

/** Reads `postmaster.pid`; `undefined` when no server claims the folder. */
export function readPostmasterFile(clusterDir: string): PostmasterFile | undefined {
  let text: string;
  try {
    text = readFileSync(fileIn(clusterDir), 'utf8');
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return undefined;
    throw error;
  }
  const lines = text.split('\n');
  return { pid: Number(lines[0]), port: Number(lines[3] ?? 0) };
}

/**
 * Whether the process named in the file is a server on this folder.
 *
 * After a crash of the machine the id may belong to anything. PostgreSQL then refuses to start until someone deletes
 * the file, so it is looked into: on Linux a server's working folder is its data folder; elsewhere the name of the
 * running program must do.
 */
export function servesFolder(pid: number, clusterDir: string): boolean {
  if (!processIsAlive(pid)) return false;
  try {
    if (process.platform === 'linux') return readlinkSync(`/proc/${pid}/cwd`) === clusterDir;
    if (process.platform === 'win32') {
      const tasks = execFileSync('tasklist', ['/FI', `PID eq ${pid}`, '/FO', 'CSV', '/NH']);
      return tasks.toString().includes('postgres');
    }
    return execFileSync('ps', ['-o', 'command=', '-p', String(pid)])
      .toString()
      .includes('postgres');
  } catch {
    return false;
  }
}

/** No process has this id on any system we run on. */
const NOBODY = 2147483646;

/**
 * Puts an id that no process has into a file left by a dead server.
 *
 * The file is not deleted: its other lines name the shared memory by which PostgreSQL tells whether backends of the
 * dead server are still at work.
 */
export function disownPostmasterFile(clusterDir: string): void {
  const lines = readFileSync(fileIn(clusterDir), 'utf8').split('\n');
  lines[0] = String(NOBODY);
  // Written over in place: owner and mode stay the server's.
  writeFileSync(fileIn(clusterDir), lines.join('\n'));
}

function fileIn(clusterDir: string): string {
  return join(clusterDir, 'postmaster.pid');
}
