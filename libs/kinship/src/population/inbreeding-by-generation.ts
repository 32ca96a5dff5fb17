import {
  completeGenerationEquivalents,
  generationDepth,
  isRecorded,
  type Pedigree,
} from '@linewright/pedigree';
import { checkIndices, checkLength } from '../checks.js';
import type { FounderOptions } from '../founder-relationship.js';
import { knownInbreeding } from '../inbreeding.js';
import { shareNotAlike } from './share-not-alike.js';

/** F of the fish of one generation, of one line where lines are told apart. */
export interface GenerationInbreeding {
  readonly generation: number;
  readonly line: string | null;
  readonly count: number;
  readonly mean: number;
  /** Mean of 1 - F, with its digits also where F is all but 1; `NaN` where it cannot be told. */
  readonly meanNotAlike: number;
  readonly lowest: number;
  readonly highest: number;
  readonly inbred: number;
  /** Mean complete generation equivalents: how far back these figures can see. */
  readonly meanEquivalents: number;
}

export interface GenerationOptions extends FounderOptions {
  /** Fish to look at; all by default. */
  readonly fish?: ArrayLike<number>;
  /** Generation number of every fish; by default its longest line to a founder. */
  readonly generation?: ArrayLike<number>;
  /** Line of every fish; `null` for none. Left out, all fish count as one. */
  readonly line?: ArrayLike<string | null>;
}

/**
 * F by generation, and by line where lines are given: rows in order of line and generation.
 *
 * Cost: one pass once all F are known, plus the sort of the rows.
 * @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH`, `KINSHIP_BAD_INDEX`.
 */
export function inbreedingByGeneration(
  pedigree: Pedigree,
  options: GenerationOptions = {},
): GenerationInbreeding[] {
  const { fish = Int32Array.from({ length: pedigree.size }, (_, i) => i), line } = options;
  const generation = options.generation ?? generationDepth(pedigree);
  checkLength('generation', generation.length, pedigree.size);
  if (line !== undefined) checkLength('line', line.length, pedigree.size);
  checkIndices(pedigree, fish);
  const inbreeding = knownInbreeding(pedigree, options.founders);
  const equivalents = completeGenerationEquivalents(pedigree);
  const notAlike =
    options.founders === undefined
      ? shareNotAlike(pedigree, fish)
      : Float64Array.from(fish, (i) => 1 - inbreeding[i]!);
  const rows = new Map<
    string,
    { line: string | null; generation: number; fish: number[]; places: number[] }
  >();
  for (let k = 0; k < fish.length; k++) {
    const i = fish[k]!;
    const group = { line: line?.[i] ?? null, generation: generation[i]!, fish: [i], places: [k] };
    const key = JSON.stringify([group.line, group.generation]);
    const row = rows.get(key);
    if (row === undefined) rows.set(key, group);
    else {
      row.fish.push(i);
      row.places.push(k);
    }
  }
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  return [...rows.values()]
    .map((row) => {
      const f = row.fish.map((i) => inbreeding[i]!);
      return {
        generation: row.generation,
        line: row.line,
        count: f.length,
        mean: mean(f),
        meanNotAlike: mean(Array.from(row.places, (k) => notAlike[k]!)),
        lowest: f.reduce((least, value) => Math.min(least, value), 1),
        highest: f.reduce((most, value) => Math.max(most, value), 0),
        inbred: f.filter((value) => value > 0).length,
        meanEquivalents: mean(row.fish.map((i) => equivalents[i]!)),
      };
    })
    .sort(
      (a, b) =>
        Number((a.line ?? '') > (b.line ?? '')) - Number((a.line ?? '') < (b.line ?? '')) ||
        a.generation - b.generation,
    );
}

/** The pace at which F rises. */
export interface InbreedingRate {
  /** Increase a generation, as a share of what could still be lost: 1 - exp(slope of ln(1 - F) on generation). */
  readonly rate: number;
  /** 1 / (2 x rate); infinite where F does not rise. `null` where it falls, as after an outcross. */
  readonly effectiveSize: number | null;
  readonly generations: number;
}

/**
 * Rate of inbreeding over generations, by a straight line through ln(1 - mean F), each generation weighing the same. `null` with
 * fewer than two generations, or where one is wholly inbred.
 *
 * Source: the regression form of dF = (F_t - F_(t-1)) / (1 - F_(t-1)), Falconer & Mackay (1996) ch. 4 (from memory).
 */
export function inbreedingRate(
  rows: readonly (Pick<GenerationInbreeding, 'generation' | 'mean'> &
    Partial<Pick<GenerationInbreeding, 'meanNotAlike'>>)[],
): InbreedingRate | null {
  const left = rows.map((row) => row.meanNotAlike ?? 1 - row.mean);
  if (rows.length < 2 || !left.every((share) => share > 0)) return null;
  const n = rows.length;
  const meanGeneration = rows.reduce((sum, row) => sum + row.generation, 0) / n;
  const logs = left.map((share) => Math.log(share));
  const meanLog = logs.reduce((sum, value) => sum + value, 0) / n;
  let products = 0;
  let squares = 0;
  rows.forEach((row, k) => {
    products += (row.generation - meanGeneration) * (logs[k]! - meanLog);
    squares += (row.generation - meanGeneration) ** 2;
  });
  if (squares === 0) return null;
  const rate = -Math.expm1(products / squares);
  return { rate, effectiveSize: rate < 0 ? null : 1 / (2 * rate), generations: n };
}

/**
 * Mean share of the ancestors' places of a group that is known, generation by generation: element 0 for parents, 1 for
 * grandparents, and so on. Says how far the other figures can be trusted: an unknown ancestor counts as unrelated to all.
 *
 * Cost: for each generation one pass. @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 */
export function meanCompleteness(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  generations: number,
): Float64Array {
  checkIndices(pedigree, group);
  const { size, sire, dam } = pedigree;
  const known = new Float64Array(generations);
  let share = new Float64Array(size);
  for (let k = 0; k < group.length; k++) share[group[k]!]! += 1 / group.length;
  for (let generation = 0; generation < generations; generation++) {
    const above = new Float64Array(size);
    let total = 0;
    for (let i = 0; i < size; i++) {
      const half = share[i]! / 2;
      if (half === 0) continue;
      for (const parent of [sire[i]!, dam[i]!]) {
        if (!isRecorded(pedigree, parent)) continue;
        above[parent]! += half;
        total += half;
      }
    }
    known[generation] = total;
    if (total === 0) break;
    share = above;
  }
  return known;
}
