import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startEmbeddedDatabase } from '@linewright/embedded-database';

const ROUNDS = 5;

/** Emits how long the embedded database takes to start cold (with initdb) and warm, to attach, and to stop. */
export async function run(emit: (line: object) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  // As root the server runs under another account, which has to get in.
  chmodSync(folder, 0o755);
  const times = {
    cold: [] as number[],
    warm: [] as number[],
    attach: [] as number[],
    stop: [] as number[],
  };
  const timed = async <T>(into: number[], work: () => Promise<T>): Promise<T> => {
    const before = performance.now();
    const result = await work();
    into.push(performance.now() - before);
    return result;
  };
  try {
    for (let round = 0; round < ROUNDS; round += 1) {
      const options = { dataDir: join(folder, String(round)) };
      const cold = await timed(times.cold, () => startEmbeddedDatabase(options));
      const attached = await timed(times.attach, () => startEmbeddedDatabase(options));
      await attached.stop();
      await timed(times.stop, () => cold.stop());
      const warm = await timed(times.warm, () => startEmbeddedDatabase(options));
      await warm.stop();
    }
    for (const [what, values] of Object.entries(times)) {
      const sorted = values.map((value) => Math.round(value * 10) / 10).sort((a, b) => a - b);
      emit({
        bench: 'database',
        what,
        unit: 'ms',
        rounds: ROUNDS,
        median: sorted[Math.floor(ROUNDS / 2)],
        fastest: sorted[0],
        slowest: sorted.at(-1),
      });
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
