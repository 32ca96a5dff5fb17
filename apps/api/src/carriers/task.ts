import {
  type CarrierEvidence,
  type CarrierMethod,
  carrierModel,
  type CarrierModel,
  type CarrierOptions,
  type FounderBeliefs,
  findContradiction,
  type GenotypePosterior,
  HeredityError,
  type JointPosterior,
  type Locus,
} from '@linewright/heredity';
import { buildPedigree, type Pedigree } from '@linewright/pedigree';
import type { Parentage } from './evidence.js';

/** What is asked of the records of one locus. Everything in a task and its answer can pass between threads. */
export type Ask =
  | { readonly kind: 'all' }
  | { readonly kind: 'fish'; readonly fish: readonly string[] }
  /** `without`: a record left out, such as the brood that is to be held against the answer. */
  | {
      readonly kind: 'pair';
      readonly sire: string;
      readonly dam: string;
      readonly without?: string;
    }
  /** The same fish with each of these records left out in turn, and with none at all. */
  | { readonly kind: 'why'; readonly fish: string; readonly records: readonly string[] }
  | { readonly kind: 'contradiction' };

export interface CarrierTask {
  readonly parentages: readonly Parentage[];
  readonly locus: Locus;
  readonly evidence: readonly CarrierEvidence[];
  readonly founders: FounderBeliefs;
  readonly ask: Ask;
}

type Genotypes = GenotypePosterior['genotypes'];

export interface FoundContradiction {
  readonly records: readonly string[];
  readonly smallest: boolean;
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

const pedigreeOf = (task: CarrierTask): Pedigree =>
  buildPedigree(
    task.parentages.map(({ id, sire, dam }) => ({
      id,
      ...(sire !== null && { sire }),
      ...(dam !== null && { dam }),
    })),
  );

const short = (p: number): number => Number(p.toFixed(9));

const answerAll = (model: CarrierModel, pedigree: Pedigree): CarrierAnswer => {
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
  const values = model.all();
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

const MOST_CONTRADICTIONS = 6;

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
    parentages: found.parentages.flatMap((text) => {
      const read = /^(.+): (.+) x (.+)$/.exec(text);
      return read === null ? [] : [[read[1] ?? '', read[2] ?? '', read[3] ?? ''] as const];
    }),
  };
};

/**
 * Answers one question about one locus; runs in a thread of its own.
 * @throws HeredityError of the lib, but not `EVIDENCE_IMPOSSIBLE`, which is an answer.
 */
export const runTask = (task: CarrierTask, onProgress?: Progress): CarrierAnswer => {
  const pedigree = pedigreeOf(task);
  const { ask, locus, founders, evidence } = task;
  const watch: CarrierOptions = onProgress === undefined ? {} : { onProgress };
  try {
    if (ask.kind === 'contradiction') return { contradictions: contradictionsIn(task, pedigree) };
    if (ask.kind === 'why') return { why: leaveOut(task, pedigree, ask.fish, ask.records) };
    const input = { pedigree, locus, founders, evidence };
    if (ask.kind === 'all') return answerAll(carrierModel(input, watch), pedigree);
    if (ask.kind === 'pair') {
      const { sire, dam, without } = ask;
      const kept = evidence.filter((one) => one.id !== without);
      const model = carrierModel(
        { ...input, evidence: kept },
        { ...watch, fish: [sire, dam], pairs: [{ sire, dam }] },
      );
      return {
        method: model.method,
        joint: model.joint(sire, dam),
        fish: { [sire]: model.posterior(sire).genotypes, [dam]: model.posterior(dam).genotypes },
      };
    }
    const model = carrierModel(input, { ...watch, fish: ask.fish });
    return {
      method: model.method,
      fish: Object.fromEntries(ask.fish.map((id) => [id, model.posterior(id).genotypes])),
    };
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'EVIDENCE_IMPOSSIBLE')
      return { impossible: error.message };
    throw error;
  }
};
