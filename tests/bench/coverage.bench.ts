import { pedigreeFromArrays, seededChance } from '@linewright/pedigree';
import { normals, valuesOverHeritability, type AnimalScores } from '@linewright/merit';

type Emit = (line: Record<string, unknown>) => void;
const SEED = 20_261_126;
const LEVELS = [0.5, 0.8, 0.95] as const;
const CELLS = 20;

/**
 * `npm run bench -- coverage`: lines whose truth is known. How breeding values and heritabilities that were integrated over a flat prior
 * agree with the truth, and whether their bands hold what they say. `LINES=100` makes fewer lines; `ROWS='3000 best half 0.3'` makes only
 * the rows whose name has these words in it. Each row begins from its own seed, so a row made alone is the same.
 */
export function run(emit: Emit): void {
  const lines = Number(process.env['LINES'] ?? 1000);
  const wanted = process.env['ROWS'] ?? '';
  for (const fish of [60, 300, 3000])
    for (const scoring of ['random half', 'best half'] as const)
      for (const truth of ['0 to 1', '0.3'] as const)
        if (`${fish} ${scoring} ${truth}`.includes(wanted))
          emit(runLines(fish, lines, scoring, truth));
}

interface Tally {
  values: number;
  bias: number;
  correlation: number;
  held: number[];
  heldHeritability: number[];
  heritability: number;
}

function runLines(fish: number, lines: number, scoring: string, truth: string) {
  const tally: Tally = {
    values: 0,
    bias: 0,
    correlation: 0,
    held: [0, 0, 0],
    heldHeritability: [0, 0, 0],
    heritability: 0,
  };
  const chance = seededChance(SEED + fish);
  for (let line = 0; line < lines; line++)
    oneLine(chance, fish, scoring === 'best half', truth === '0.3' ? 0.3 : chance(), tally);
  const percent = (count: number, of: number): number => Number(((100 * count) / of).toFixed(1));
  return {
    fish,
    lines,
    scoring,
    truth,
    seed: SEED,
    bias: Number((tally.bias / tally.values).toFixed(3)),
    correlation: Number((tally.correlation / lines).toFixed(3)),
    heldValues: tally.held.map((count) => percent(count, tally.values)),
    heldHeritability: tally.heldHeritability.map((count) => percent(count, lines)),
    meanHeritability: Number((tally.heritability / lines).toFixed(3)),
  };
}

/** Variance of scores 1; values are counted for all fish, scored or not. */
function oneLine(
  chance: () => number,
  fish: number,
  selected: boolean,
  heritability: number,
  tally: Tally,
): void {
  const { scores, value } = simulated(chance, fish, selected, heritability);
  const posterior = valuesOverHeritability(scores, { cells: CELLS });
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
  tally.values += fish;
  const spread = Math.sqrt((sumAA - sumA ** 2 / fish) * (sumBB - sumB ** 2 / fish));
  tally.correlation += spread > 0 ? (sumAB - (sumA * sumB) / fish) / spread : 0;
  tally.heritability += posterior.heritability.mean;
  LEVELS.forEach((level, k) => {
    const band = posterior.heritabilityBand(level);
    if (heritability >= band.low && heritability <= band.high) tally.heldHeritability[k]!++;
  });
}

/** Broods of ten; a fifth of the fish are founders, parents come from the generation before; half of each brood is scored. */
function simulated(chance: () => number, fish: number, selected: boolean, heritability: number) {
  const normal = normals(chance);
  const sire = new Int32Array(fish).fill(-1);
  const dam = new Int32Array(fish).fill(-1);
  const value = new Float64Array(fish);
  const score = new Float64Array(fish);
  const brood = new Int32Array(fish);
  const each = Math.floor(fish / 5 / 2) * 2;
  for (let i = 0, broods = 0, s = -1, d = -1; i < fish; i++) {
    const first = Math.floor(i / each) * each;
    if (first > 0 && (i - first) % 10 === 0) {
      broods++;
      s = first - each + 2 * Math.floor((chance() * each) / 2);
      d = first - each + 1 + 2 * Math.floor((chance() * each) / 2);
    }
    if (first > 0) [sire[i], dam[i], brood[i]] = [s, d, broods];
    value[i] =
      first === 0
        ? Math.sqrt(heritability) * normal()
        : (value[s]! + value[d]!) / 2 + Math.sqrt(heritability / 2) * normal();
    score[i] = value[i]! + Math.sqrt(1 - heritability) * normal();
  }
  const kept = scored(brood, score, selected, chance);
  const scores: AnimalScores = {
    pedigree: pedigreeFromArrays(sire, dam),
    fish: Int32Array.from(kept),
    traits: [{ name: 'score', values: Float64Array.from(kept, (i) => score[i]!) }],
  };
  return { scores, value };
}

function scored(brood: Int32Array, score: Float64Array, selected: boolean, chance: () => number) {
  const members = new Map<number, number[]>();
  brood.forEach((b, i) => {
    const list = members.get(b);
    if (list === undefined) members.set(b, [i]);
    else list.push(i);
  });
  return [...members.values()].flatMap((list) => {
    const lot = new Map(list.map((i) => [i, chance()]));
    const by = selected ? (i: number) => -score[i]! : (i: number) => lot.get(i)!;
    return [...list].sort((a, b) => by(a) - by(b)).slice(0, Math.ceil(list.length / 2));
  });
}
