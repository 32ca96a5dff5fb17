import { inbreedingCoefficients } from '@linewright/kinship';
import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import { MatingError } from './mating-error.js';

/** A simple scheme of mating to be followed from one actual pair. */
export type RouteScheme =
  /** Brother by sister in every generation. */
  | { readonly kind: 'full-siblings' }
  /** A young of every generation back to one and the same fish, which must be the sire or the dam of the first pair. */
  | { readonly kind: 'backcross'; readonly parentId: string }
  /** The sire is put to several dams; in every generation one male of the first brood goes to his half sisters of the others. */
  | { readonly kind: 'half-siblings'; readonly otherDamIds: readonly string[] };

/** F of the broods of one generation of a route. */
export interface RouteStep {
  /** 1 is the brood of the first pair. */
  readonly generation: number;
  readonly meanInbreeding: number;
  readonly leastInbreeding: number;
  readonly mostInbreeding: number;
  /** Different broods in that generation. */
  readonly broods: number;
}

/** What to project. */
export interface RouteInput {
  readonly pedigree: Pedigree;
  readonly sireId: string;
  readonly damId: string;
  readonly scheme: RouteScheme;
  /** From 1 to 30. */
  readonly generations: number;
}

/**
 * F over the next generations of a simple scheme, from an actual pair with all its actual ancestors.
 *
 * The young are written into a hypothetical pedigree and their F computed exactly; no recurrence is used, so inbred and
 * related starting fish are counted in full. F is an expectation over the genome: real young scatter around it.
 * Half siblings need one more dam a generation; the route ends early when the dams run out.
 *
 * Throws `MatingError`: `MATING_UNKNOWN_FISH`, `MATING_BAD_SETTING`. Cost: F of the whole pedigree once.
 *
 * @example
 * projectRoute({ pedigree, sireId: 'A1', damId: 'A2', scheme: { kind: 'full-siblings' }, generations: 4 });
 */
export function projectRoute(input: RouteInput): readonly RouteStep[] {
  const { pedigree, generations } = input;
  if (!Number.isInteger(generations) || generations < 1 || generations > 30) {
    const message = `A route of ${String(generations)} generations cannot be projected; ask for 1 to 30.`;
    throw new MatingError('MATING_BAD_SETTING', 'generations', message);
  }
  const sire = known(pedigree, input.sireId);
  const dam = known(pedigree, input.damId);
  const young = new HypotheticalYoung(pedigree);
  const broods = broodsByGeneration(input, young, sire, dam);
  const inbreeding = inbreedingCoefficients(young.pedigree());
  return broods.map((fish, k) => {
    const figures = fish.map((index) => inbreeding[index] ?? 0);
    return {
      generation: k + 1,
      meanInbreeding: figures.reduce((sum, f) => sum + f, 0) / figures.length,
      leastInbreeding: Math.min(...figures),
      mostInbreeding: Math.max(...figures),
      broods: figures.length,
    };
  });
}

/** One young of every brood, generation by generation. */
function broodsByGeneration(
  input: RouteInput,
  young: HypotheticalYoung,
  sire: number,
  dam: number,
): number[][] {
  const { scheme, generations, pedigree } = input;
  if (scheme.kind === 'half-siblings') {
    const dams = [dam, ...scheme.otherDamIds.map((id) => known(pedigree, id))];
    if (new Set([sire, ...dams]).size !== dams.length + 1) {
      throw new MatingError(
        'MATING_BAD_SETTING',
        'otherDamIds',
        'Name different dams, each once, and not the sire.',
      );
    }
    return halfSiblings(young, sire, dams, generations);
  }
  const first = young.add(sire, dam);
  const broods = [[first]];
  if (scheme.kind === 'backcross') {
    const parent = known(pedigree, scheme.parentId);
    if (parent !== sire && parent !== dam) {
      const message = `Fish ${scheme.parentId} is neither the sire nor the dam of the pair. Name one of the two.`;
      throw new MatingError('MATING_BAD_SETTING', 'parentId', message);
    }
    for (let g = 1, last = first; g < generations; g++) {
      last = young.add(parent, last);
      broods.push([last]);
    }
    return broods;
  }
  let [brother, sister] = [first, young.add(sire, dam)];
  for (let g = 1; g < generations; g++) {
    [brother, sister] = [young.add(brother, sister), young.add(brother, sister)];
    broods.push([brother]);
  }
  return broods;
}

function halfSiblings(
  young: HypotheticalYoung,
  sire: number,
  dams: readonly number[],
  generations: number,
): number[][] {
  const broods: number[][] = [];
  let male = sire;
  let females = dams;
  while (broods.length < generations && females.length > 0) {
    const brood = females.map((female) => young.add(male, female));
    broods.push(brood);
    male = brood[0] ?? male;
    females = brood.slice(1);
  }
  return broods;
}

/** Young that do not exist, appended to a pedigree of fish that do. */
class HypotheticalYoung {
  readonly #sires: number[];
  readonly #dams: number[];

  constructor(actual: Pedigree) {
    this.#sires = Array.from(actual.sire);
    this.#dams = Array.from(actual.dam);
  }

  add(sire: number, dam: number): number {
    this.#dams.push(dam);
    return this.#sires.push(sire) - 1;
  }

  pedigree(): Pedigree {
    return pedigreeFromArrays(Int32Array.from(this.#sires), Int32Array.from(this.#dams));
  }
}

function known(pedigree: Pedigree, id: string): number {
  if (!pedigree.has(id)) {
    throw new MatingError(
      'MATING_UNKNOWN_FISH',
      id,
      `Fish ${id} is not in the pedigree. Add it, or remove it here.`,
    );
  }
  return pedigree.indexOf(id);
}
