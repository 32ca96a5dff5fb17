import { readFileSync } from 'node:fs';
import { systemCode } from './errors.js';

/**
 * A text that names one running process and no later one: process id, its start time in kernel ticks and the start
 * of the machine. The last two are empty where the system does not tell them (macOS, Windows); there a reused
 * process id is taken for the old process.
 */
export function processMark(pid: number = process.pid): string {
  return `${pid}-${startTicks(pid) ?? ''}-${bootMark()}`;
}

/** Whether the process that wrote this mark still runs. */
export function markIsAlive(mark: string): boolean {
  const [pidText, ticks, boot] = mark.split('-');
  const pid = Number(pidText);
  if (boot !== bootMark() || !processIsAlive(pid)) return false;
  // A killed process whose parent never asks after it keeps its id (seen in containers without an init): not alive.
  return ticks === '' || (startTicks(pid) === ticks && !isZombie(pid));
}

/** Whether any process has this id now, whoever owns it. */
export function processIsAlive(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return systemCode(error) === 'EPERM';
  }
}

function startTicks(pid: number): string | undefined {
  return statFields(pid)[22 - 3];
}

function isZombie(pid: number): boolean {
  const [state] = statFields(pid);
  return state === 'Z' || state === 'X';
}

/** Fields of /proc/PID/stat from the third (the state) on; none where there is no such file. */
function statFields(pid: number): string[] {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The command name may hold spaces and brackets: count fields from its closing bracket.
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  } catch {
    return [];
  }
}

function bootMark(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').slice(0, 8);
  } catch {
    return '';
  }
}
