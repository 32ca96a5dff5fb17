const EVERY_MS = 250;
const QUIET_MS = 1_000;

export interface ProgressLine {
  readonly show: (share: number) => void;
  readonly end: () => void;
}

/**
 * How far a job is, on standard error: one line written over on a terminal, a line each tenth elsewhere. A job of less than
 * a second says nothing.
 */
export const progressLine = (): ProgressLine => {
  const { isTTY } = process.stderr;
  const start = performance.now();
  let last = 0;
  let told = -1;
  return {
    show: (share) => {
      const now = performance.now();
      const step = isTTY ? Math.floor(share * 100) : Math.floor(share * 10) * 10;
      if (now - start < QUIET_MS || step <= told || (isTTY && now - last < EVERY_MS)) return;
      [last, told] = [now, step];
      process.stderr.write(
        isTTY ? `\rImporting: ${step} %   (Ctrl-C stops it)` : `Importing: ${step} %\n`,
      );
    },
    end: () => {
      if (isTTY && told >= 0) process.stderr.write('\r\u001B[K');
    },
  };
};
