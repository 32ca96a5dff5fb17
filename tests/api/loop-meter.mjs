import { readFileSync } from 'node:fs';
import { setInterval } from 'node:timers';
import { isMainThread } from 'node:worker_threads';

/**
 * Given to a server with `node --import`: measures how long its main thread works between two turns of the event loop, and
 * answers each message of its parent with the longest since the message before.
 *
 * Processor time of that thread alone, not time on a clock: a busy machine makes a server wait, but not work more.
 *
 * Memory is told the same way: the most since the message before, after which what is no longer used is given back where it is
 * much, so that one operation does not answer for the leavings of another. A new height of the whole run is always told, however
 * short.
 */

const TURN_MS = 5;
/** Turns between two looks at the memory in use, which costs more than a turn: a new height is told by the system itself. */
const TURNS_A_LOOK = 10;
/** Leavings of that size are given back: collecting all of them each time would be most of a run's work. */
const MUCH = 48 * 1024 * 1024;
const schedule = `/proc/self/task/${process.pid}/schedstat`;

const threadMs = () => {
  try {
    // Linux: nanoseconds on a processor stand first.
    return Number(readFileSync(schedule, 'latin1').split(' ')[0]) / 1e6;
  } catch {
    // Elsewhere: of all threads of the process, which is more and never less.
    const { user, system } = process.cpuUsage();
    return (user + system) / 1e3;
  }
};

if (isMainThread && process.send !== undefined) {
  let last = threadMs();
  let longest = 0;
  let highest = 0;
  let heightBefore = 0;
  let clean = 0;
  let turns = 0;
  const turn = () => {
    const now = threadMs();
    longest = Math.max(longest, now - last);
    last = now;
    if (turns++ % TURNS_A_LOOK === 0) highest = Math.max(highest, process.memoryUsage.rss());
  };
  setInterval(turn, TURN_MS).unref();
  process.on('message', () => {
    turn();
    const height = process.resourceUsage().maxRSS * 1024;
    const peak = height > heightBefore ? height : highest;
    process.send({ standMs: longest, peakMb: peak / 1024 / 1024 });
    if (process.memoryUsage.rss() > clean + MUCH) {
      globalThis.gc();
      clean = process.memoryUsage.rss();
    }
    heightBefore = height;
    highest = process.memoryUsage.rss();
    last = threadMs();
    longest = 0;
  });
  process.channel?.unref();
}
