import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';
import { CommandError } from './owner.js';

/** Asks at a terminal without showing what is typed; from a pipe, reads the next line. */
export const secretAsker = (signal: AbortSignal) => {
  const { isTTY } = process.stdin;
  const silent = new Writable({ write: (_chunk, _encoding, done) => done() });
  const lines = createInterface({ input: process.stdin, output: silent, terminal: isTTY });
  // In this mode the terminal hands Ctrl-C over as a letter.
  lines.on('SIGINT', () => process.kill(process.pid, 'SIGINT'));
  const waiting = lines[Symbol.asyncIterator]();
  const aborted = new Promise<never>((_resolve, reject) => {
    signal.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
  });
  aborted.catch(() => undefined);
  return {
    ask: async (question: string): Promise<string> => {
      process.stderr.write(question);
      const line: IteratorResult<string, unknown> = await Promise.race([waiting.next(), aborted]);
      if (isTTY) process.stderr.write('\n');
      if (line.done === true) throw new CommandError('No password was given: nothing was changed.');
      return line.value;
    },
    asksTwice: isTTY,
    close: () => lines.close(),
  };
};
