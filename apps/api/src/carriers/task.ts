import {
  type CarrierEvidence,
  type CarrierMethod,
  carrierModel,
  type CarrierModel,
  type CarrierOptions,
  findContradiction,
  type Genotype,
  type GenotypePosterior,
  HeredityError,
  type JointPosterior,
} from '@linewright/heredity';
import type { Pedigree } from '@linewright/pedigree';
import { pedigreeOfPart } from '../kinship/pedigree-part.js';
import type { PreparedModels } from './prepared-models.js';
import type { AskedOfThread, CarrierTask, PreparedTask } from './carrier-task.js';

type Genotypes = GenotypePosterior['genotypes'];

export interface FoundContradiction {
  readonly records: readonly string[];
  readonly smallest: boolean;
  readonly restsOnFounders: boolean;
  readonly parentages: readonly (readonly [young: string, sire: string, dam: string])[];
}

export interface CarrierAnswer {
  readonly method?: CarrierMethod;
  readonly genotypes?: readonly string[];
  /** Of `all`: by fish, probabilities in the order of `genotypes`. */
  readonly all?: Readonly<Record<string, readonly number[]>>;
  /** Standard errors of `all`, when it was sampled. */
  readonly errors?: Readonly<Record<string, readonly number[]>>;
  readonly fish?: Readonly<Record<string, Genotypes>>;
  readonly joint?: readonly JointPosterior[];
  /** Of `together`: places among the genotypes, draw by draw, one for each fish, as base64. */
  readonly together?: { readonly genotypes: readonly Genotype[]; readonly draws: string };
  /** In the order asked for; null when the model had to be sampled. */
  readonly sole?: readonly number[] | null;
  readonly why?: {
    readonly whole: Genotypes;
    readonly nothing: Genotypes;
    readonly without: Readonly<Record<string, Genotypes>>;
  };
  /** None of them shares a record with another. */
  readonly contradictions?: readonly FoundContradiction[];
  /** Set instead of the rest when the records cannot all be true. */
  readonly impossible?: string;
}

export type Progress = (done: number, total: number) => void;

const short = (p: number): number => Number(p.toFixed(9));

const answerAll = (
  model: CarrierModel,
  pedigree: Pedigree,
  onProgress?: Progress,
): CarrierAnswer => {
  const [first] = pedigree.ids;
  const genotypes = first === undefined ? [] : model.posterior(first).genotypes.map((g) => g.text);
  const size = genotypes.length;
  const all: Record<string, number[]> = {};
  if (model.method.kind === 'sampled') {
    const errors: Record<string, number[]> = {};
    for (const id of pedigree.ids) {
      const { genotypes: chances } = model.posterior(id);
      all[id] = chances.map((one) => short(one.probability));
      errors[id] = chances.map((one) => short(one.standardError ?? 0));
    }
    return { method: model.method, genotypes, all, errors };
  }
  const values = model.all(onProgress === undefined ? {} : { onProgress });
  pedigree.ids.forEach((id, i) => {
    all[id] = Array.from(values.subarray(i * size, (i + 1) * size), short);
  });
  return { method: model.method, genotypes, all };
};

const leaveOut = (
  task: CarrierTask,
  pedigree: Pedigree,
  fish: string,
  records: readonly string[],
) => {
  const input = { pedigree, locus: task.locus, founders: task.founders };
  const solve = (evidence: readonly CarrierEvidence[]): Genotypes =>
    carrierModel({ ...input, evidence }, { fish: [fish] }).posterior(fish).genotypes;
  const without: Record<string, Genotypes> = {};
  for (const id of records) without[id] = solve(task.evidence.filter((one) => one.id !== id));
  return { whole: solve(task.evidence), nothing: solve([]), without };
};

/** Contradictions searched for at one locus: each search takes a while. */
export const MOST_CONTRADICTIONS = 6;

/** One after another, each searched for among the records that the ones before left over. */
const contradictionsIn = (task: CarrierTask, pedigree: Pedigree): FoundContradiction[] => {
  const found: FoundContradiction[] = [];
  let evidence = task.evidence;
  while (found.length < MOST_CONTRADICTIONS) {
    const one = contradictionIn({ ...task, evidence }, pedigree);
    if (one === null) break;
    found.push(one);
    evidence = evidence.filter((record) => !one.records.includes(record.id));
  }
  return found;
};

const contradictionIn = (task: CarrierTask, pedigree: Pedigree): FoundContradiction | null => {
  const found = findContradiction({
    pedigree,
    locus: task.locus,
    founders: task.founders,
    evidence: task.evidence,
  });
  if (found === null) return null;
  return {
    records: found.records.map((one) => one.id),
    smallest: found.smallest,
    restsOnFounders: found.restsOnFounders,
    parentages: found.parentages.flatMap((text) => {
      const read = /^(.+): (.+) x (.+)$/.exec(text);
      return read === null ? [] : [[read[1] ?? '', read[2] ?? '', read[3] ?? ''] as const];
    }),
  };
};

const answerFish = (model: CarrierModel, fish: readonly string[]): CarrierAnswer => ({
  method: model.method,
  fish: Object.fromEntries(fish.map((id) => [id, model.posterior(id).genotypes])),
});

const answerPair = (model: CarrierModel, sire: string, dam: string): CarrierAnswer => ({
  ...answerFish(model, [sire, dam]),
  joint: model.joint(sire, dam),
});

/** The same draws for the same records: a figure must not move when the page is read again. */
const SEED = 20_261_127;

const answerTogether = (
  model: CarrierModel,
  { fish, count }: Extract<CarrierTask['ask'], { kind: 'together' }>,
): CarrierAnswer => {
  const { genotypes, draws } = model.drawTogether(fish, count, SEED);
  return {
    method: model.method,
    together: { genotypes, draws: Buffer.from(draws).toString('base64') },
  };
};

const answerSole = (
  model: CarrierModel,
  { allele, among }: Extract<CarrierTask['ask'], { kind: 'sole' }>,
): CarrierAnswer => {
  const sole = model.soleCarriers(among, allele);
  return { method: model.method, sole: sole === null ? null : Array.from(sole, short) };
};

/** From a model kept ready; null when there is none, or the question needs another. */
const quickAnswer = (
  task: PreparedTask,
  prepared: PreparedModels,
  onProgress?: Progress,
): CarrierAnswer | null => {
  const { ask } = task;
  if (ask.kind === 'contradiction' || ask.kind === 'why') return null;
  if (ask.kind === 'pair' && ask.without !== undefined) return null;
  const found = prepared.find(task);
  if (found === null) return null;
  if (ask.kind === 'all') return answerAll(found.model, found.pedigree, onProgress);
  if (ask.kind === 'sole') return answerSole(found.model, ask);
  if (ask.kind === 'together') return answerTogether(found.model, ask);
  return ask.kind === 'pair'
    ? answerPair(found.model, ask.sire, ask.dam)
    : answerFish(found.model, ask.fish);
};

const fullAnswer = (
  task: CarrierTask,
  prepared: PreparedModels,
  onProgress?: Progress,
): CarrierAnswer => {
  const pedigree = pedigreeOfPart(task.pedigree);
  const { ask, locus, founders, evidence } = task;
  const watch: CarrierOptions = onProgress === undefined ? {} : { onProgress };
  if (ask.kind === 'contradiction') return { contradictions: contradictionsIn(task, pedigree) };
  if (ask.kind === 'why') return { why: leaveOut(task, pedigree, ask.fish, ask.records) };
  const input = { pedigree, locus, founders, evidence };
  if (ask.kind === 'all') {
    const model = carrierModel(input, watch);
    prepared.keep(task, pedigree, model);
    return answerAll(model, pedigree, onProgress);
  }
  if (ask.kind === 'pair') {
    const { sire, dam, without } = ask;
    const kept = evidence.filter((one) => !(without ?? []).includes(one.id));
    const options = { ...watch, fish: [sire, dam], pairs: [{ sire, dam }] };
    return answerPair(carrierModel({ ...input, evidence: kept }, options), sire, dam);
  }
  if (ask.kind === 'sole')
    return answerSole(carrierModel(input, { ...watch, fish: ask.among }), ask);
  if (ask.kind === 'together') {
    const options = { ...watch, fish: ask.fish, drawn: ask.fish };
    return answerTogether(carrierModel(input, options), ask);
  }
  return answerFish(carrierModel(input, { ...watch, fish: ask.fish }), ask.fish);
};

/**
 * Answers one question about one locus; runs in a thread of its own. Given no pedigree it answers from a model kept ready
 * in this thread, or gives null.
 * @throws HeredityError of the lib, but not `EVIDENCE_IMPOSSIBLE`, which is an answer.
 */
export const runTask = (
  task: AskedOfThread,
  prepared: PreparedModels,
  onProgress?: Progress,
): CarrierAnswer | null => {
  try {
    const quick = quickAnswer(task, prepared, onProgress);
    return quick !== null || !('pedigree' in task) ? quick : fullAnswer(task, prepared, onProgress);
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'EVIDENCE_IMPOSSIBLE')
      return { impossible: error.message };
    throw error;
  }
};
