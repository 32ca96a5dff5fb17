import { seededChance } from '@linewright/pedigree';
import {
  isGraded,
  type LineKind,
  posteriorOf,
  simulatedLine,
  type SimulatedLine,
  tellsNothing,
} from './simulated-lines.js';

type Emit = (line: Record<string, unknown>) => void;
const SEED = 20_261_126;
const LEVELS = [0.5, 0.8, 0.95] as const;

/**
 * `npm run bench -- coverage`: lines whose truth is known. How breeding values and heritabilities that were integrated over a flat prior
 * agree with the truth, and whether their bands hold what they say. `LINES=100` makes fewer lines; `ROWS='3000 best half 0.3'` makes only
 * the rows whose name has these words in it. Each row begins from its own seed, so a row made alone is the same.
 */
export function run(emit: Emit): void {
  const lines = Number(process.env['LINES'] ?? 1000);
  const wanted = process.env['ROWS'] ?? '';
  for (const kind of allRows())
    if (`${kind.fish} ${kind.scoring} ${kind.truth} ${kind.model}`.includes(wanted))
      emit(runLines(kind, lines));
}

/** All rows; of grades the best half is not to be had without many that are alike. */
function* allRows(): Generator<LineKind> {
  for (const model of ['one look', 'brood', 'two looks', 'yes/no', 'five grades'] as const)
    for (const fish of [60, 300, 3000])
      for (const scoring of ['random half', 'best half'] as const)
        for (const truth of ['0 to 1', '0.3'] as const)
          if (!isGraded(model) || scoring === 'random half') yield { fish, scoring, truth, model };
}

interface Tally {
  values: number;
  bias: number;
  correlation: number;
  held: number[];
  heldHeritability: number[];
  heritability: number;
}

function runLines(kind: LineKind, lines: number) {
  const tally: Tally = {
    values: 0,
    bias: 0,
    correlation: 0,
    held: [0, 0, 0],
    heldHeritability: [0, 0, 0],
    heritability: 0,
  };
  const chance = seededChance(SEED + kind.fish);
  for (let line = 0; line < lines;) {
    const simulated = simulatedLine(chance, kind);
    if (tellsNothing(simulated)) continue;
    count(simulated, kind, tally);
    line++;
  }
  const percent = (number: number, of: number): number => Number(((100 * number) / of).toFixed(1));
  return {
    ...kind,
    lines,
    seed: SEED,
    bias: Number((tally.bias / tally.values).toFixed(3)),
    correlation: Number((tally.correlation / lines).toFixed(3)),
    heldValues: tally.held.map((number) => percent(number, tally.values)),
    heldHeritability: tally.heldHeritability.map((number) => percent(number, lines)),
    meanHeritability: Number((tally.heritability / lines).toFixed(3)),
  };
}

/** Values are counted for all fish, scored or not. */
function count(line: SimulatedLine, kind: LineKind, tally: Tally): void {
  const { heritability, value } = line;
  const posterior = posteriorOf(line, kind);
  let [sumA, sumB, sumAA, sumBB, sumAB] = [0, 0, 0, 0, 0];
  value.forEach((a, i) => {
    const b = posterior.value[i]!;
    sumA += a;
    sumB += b;
    sumAA += a * a;
    sumBB += b * b;
    sumAB += a * b;
    const off = Math.abs(posterior.below(i, a) - 0.5);
    LEVELS.forEach((level, k) => (tally.held[k]! += off <= level / 2 ? 1 : 0));
    tally.bias += b - a;
  });
  tally.values += value.length;
  const fish = value.length;
  const spread = Math.sqrt((sumAA - sumA ** 2 / fish) * (sumBB - sumB ** 2 / fish));
  tally.correlation += spread > 0 ? (sumAB - (sumA * sumB) / fish) / spread : 0;
  tally.heritability += posterior.heritability.mean;
  LEVELS.forEach((level, k) => {
    const band = posterior.heritabilityBand(level);
    if (heritability >= band.low && heritability <= band.high) tally.heldHeritability[k]!++;
  });
}
