import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import {
  coancestryBlock,
  GrowingKinship,
  inbreedingCoefficients,
  tabularInbreeding,
  tracedInbreeding,
} from '@linewright/kinship';
import {
  pedigreeFromArrays,
  pedigreeFromColumns,
  pedigreeFromRows,
  type Pedigree,
} from '@linewright/pedigree';
import { bigSpawns, shuffledOrder, smallSpawns, type ParentArrays } from './pedigree-shapes.js';

const SEED = 11;
const SHAPES = [
  { shape: 'big spawns', make: bigSpawns },
  { shape: 'small spawns', make: smallSpawns },
] as const;

type Emit = (line: object) => void;

/** All F, the block, growth, reading: see docs/methods/inbreeding.md for what the figures mean. */
export async function run(emit: Emit): Promise<void> {
  warmUp();
  for (const { shape, make } of SHAPES) {
    for (const fish of [10_000, 100_000, 1_000_000])
      benchInbreeding(emit, shape, fish, make(fish, SEED));
  }
  for (const { shape, make } of SHAPES) {
    benchReading(emit, shape, make(1_000_000, SEED));
    benchBlock(emit, shape, make(100_000, SEED));
    benchGrowth(emit, shape, make(1_000_000, SEED));
  }
  benchCommand(emit, bigSpawns(1_000_000, SEED));
  await Promise.resolve();
}

/** A first run pays for compilation; a server that has run for a minute has it behind it. */
function warmUp(): void {
  for (let k = 0; k < 5; k++) {
    const small = smallSpawns(5000, k);
    const pedigree = pedigreeFromArrays(small.sire, small.dam);
    tracedInbreeding(pedigree);
    tabularInbreeding(pedigree);
    plainPass(small);
  }
}

function benchInbreeding(emit: Emit, shape: string, fish: number, arrays: ParentArrays): void {
  const pedigree = pedigreeFromArrays(arrays.sire, arrays.dam);
  const heavy = shape === 'small spawns' && fish === 1_000_000;
  const plain = best(31, () => plainPass(arrays));
  resetPeak();
  const before = peakMegabytes();
  const chosen = best(heavy ? 1 : 5, () => inbreedingCoefficients(pedigree));
  const peak = peakMegabytes();
  const base = { bench: 'kinship', what: 'all F', shape, seed: SEED, fish };
  emit({
    ...base,
    method: 'chosen',
    ...chosen,
    plainPassMs: plain.cpuMs,
    timesPlainPass: rounded(chosen.cpuMs / plain.cpuMs),
    peakMB: rounded(peak),
    addedMB: rounded(peak - before),
  });
  if (heavy) return;
  const tabular = best(5, () => tabularInbreeding(pedigree));
  const trace = best(fish > 10_000 ? 1 : 3, () => tracedInbreeding(pedigree));
  emit({ ...base, method: 'tabular', ...tabular });
  emit({ ...base, method: 'trace', ...trace });
}

/** The least any method must do: read every parent once. */
function plainPass({ sire, dam }: ParentArrays): number {
  let sum = 0;
  for (let i = 0; i < sire.length; i++) sum = (sum + sire[i]! + dam[i]!) | 0;
  return sum;
}

function benchReading(emit: Emit, shape: string, { sire, dam }: ParentArrays): void {
  const fish = sire.length;
  const order = shuffledOrder(fish, SEED);
  const name = (i: number) => (i < 0 ? '' : `LW-26-${i}`);
  const lines = Array.from(order, (i) => `${name(i)},${name(sire[i]!)},${name(dam[i]!)}`);
  const text = lines.join('\n');
  const base = { bench: 'kinship', shape, seed: SEED, fish, rows: 'shuffled' };
  const ids = new Array<string>(fish);
  const sires = new Array<string>(fish);
  const dams = new Array<string>(fish);
  const parse = best(1, () => {
    text.split('\n').forEach((line, row) => {
      const [id, s, d] = line.split(',');
      ids[row] = id!;
      sires[row] = s!;
      dams[row] = d!;
    });
  });
  emit({ ...base, what: 'split text into columns', ...parse });
  const build = best(1, () => pedigreeFromColumns({ ids, sire: sires, dam: dams }));
  emit({ ...base, what: 'intern, check and sort columns', ...build });
  const rowOf = new Int32Array(fish);
  order.forEach((i, row) => {
    rowOf[i] = row;
  });
  const toRows = (parents: Int32Array) =>
    Int32Array.from(order, (i) => (parents[i]! < 0 ? -1 : rowOf[parents[i]!]!));
  const rows = { sire: toRows(sire), dam: toRows(dam), ids: () => ids };
  let built: { readonly pedigree: Pedigree } | undefined;
  const sort = best(3, () => {
    built = pedigreeFromRows(rows);
  });
  emit({ ...base, what: 'check and sort row numbers', ...sort });
  if (shape === 'small spawns') return;
  const times = best(3, () => inbreedingCoefficients(built!.pedigree));
  emit({ ...base, what: 'all F, sibs scattered', ...times });
}

function benchBlock(emit: Emit, shape: string, arrays: ParentArrays): void {
  const pedigree = pedigreeFromArrays(arrays.sire, arrays.dam);
  inbreedingCoefficients(pedigree);
  const { size } = pedigree;
  for (const [candidates, step] of [
    ['the latest fish', 2],
    ['over a third of the pedigree', 66],
  ] as const) {
    const from = (k: number, sex: number) => (size & ~1) - 2 + sex - k * step;
    const males = Array.from({ length: 500 }, (_, k) => from(k, 0));
    const females = Array.from({ length: 500 }, (_, k) => from(k, 1));
    const times = best(3, () => coancestryBlock(pedigree, males, females));
    const what = 'coancestry of 500 x 500';
    emit({ bench: 'kinship', what, shape, seed: SEED, fish: size, candidates, ...times });
  }
}

function benchGrowth(emit: Emit, shape: string, { sire, dam }: ParentArrays): void {
  const pedigree = pedigreeFromArrays(sire, dam);
  // What a spawn costs does not depend on the figures themselves.
  const known =
    shape === 'big spawns' ? inbreedingCoefficients(pedigree) : new Float64Array(pedigree.size);
  const growing = new GrowingKinship(pedigree, known);
  const spawn = (k: number) =>
    growing.addSpawn((pedigree.size & ~1) - 2 - 2 * k, (pedigree.size & ~1) - 1 - 200 * k, 300);
  const first = best(1, () => spawn(0));
  const later = Array.from({ length: 25 }, (_, k) => best(1, () => spawn(k + 1)).cpuMs);
  later.sort((a, b) => a - b);
  emit({
    bench: 'kinship',
    what: 'add a spawn of 300',
    shape,
    seed: SEED,
    fish: pedigree.size,
    firstCpuMs: first.cpuMs,
    medianCpuMs: later[12],
    worstCpuMs: later.at(-1),
  });
}

function benchCommand(emit: Emit, { sire, dam }: ParentArrays): void {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  try {
    const name = (i: number) => (i < 0 ? '' : `LW-26-${i}`);
    const row = (i: number) => `${name(i)},${name(sire[i]!)},${name(dam[i]!)}`;
    // Seen from tests/bench/dist, where the bundle runs.
    const command = fileURLToPath(
      new URL('../../../apps/shell/start-kinship.mjs', import.meta.url),
    );
    for (const [rows, order] of [
      ['by spawn', Int32Array.from(sire.keys())],
      ['shuffled', shuffledOrder(sire.length, SEED)],
    ] as const) {
      const file = join(folder, 'pedigree.csv');
      writeFileSync(file, ['tag,sire,dam', ...Array.from(order, row), ''].join('\n'));
      const runIt = () => spawnSync(process.execPath, [command, file], { maxBuffer: 2 ** 30 });
      const first = runIt();
      if (first.status !== 0)
        throw new Error(`The kinship command failed: ${String(first.stderr)}`);
      const { ms } = best(2, runIt);
      const what = 'kinship command, whole run';
      emit({ bench: 'kinship', what, seed: SEED, fish: sire.length, rows, ms });
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Times {
  /** Shortest time by the clock. */
  readonly ms: number;
  /** Least processor time of all threads: what to compare by when the machine is busy with other things. */
  readonly cpuMs: number;
}

function best(times: number, work: () => unknown): Times {
  let ms = Infinity;
  let cpuMs = Infinity;
  for (let k = 0; k < times; k++) {
    const cpu = process.cpuUsage();
    const start = performance.now();
    work();
    ms = Math.min(ms, performance.now() - start);
    const used = process.cpuUsage(cpu);
    cpuMs = Math.min(cpuMs, (used.user + used.system) / 1000);
  }
  return { ms: rounded(ms), cpuMs: rounded(cpuMs) };
}

const rounded = (value: number): number => Number(value.toPrecision(3));

/** Linux can be told to forget the highest memory use so far; elsewhere the figure covers all that ran before. */
function resetPeak(): void {
  try {
    writeFileSync('/proc/self/clear_refs', '5');
  } catch {
    // Not Linux, or not permitted.
  }
}

function peakMegabytes(): number {
  try {
    const status = readFileSync('/proc/self/status', 'utf8');
    const kilobytes = /VmHWM:\s+(\d+)/.exec(status)?.[1];
    if (kilobytes !== undefined) return Number(kilobytes) / 1024;
  } catch {
    // Not Linux.
  }
  return process.resourceUsage().maxRSS / 1024;
}
