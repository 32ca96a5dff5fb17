import {
  type BroodKeeping,
  hasAims,
  type PairingCandidate,
  type YoungToKeep,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { besideTheLoop } from '../jobs/beside.js';
import { ComputationsService } from '../jobs/computations.service.js';
import { KeptAnswers } from '../jobs/kept-answers.js';
import { TraitBeliefsService } from '../merit/trait-beliefs.service.js';
import { type Judged, JudgingService } from '../pairing/judging.service.js';
import { candidateRows, type CandidateRow } from '../stock/candidate-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { spawnRecord } from '../stock/record-types.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { fishOfSpawn } from '../stock/spawn-rows.js';
import { HowManyService, type NumberToKeep } from './how-many.service.js';
import { keepingProgram } from './keeping-program.js';
import { keepingTask, keyOfTask } from './keeping-task.js';
import { LineAllelesService, type NamedAllele } from './line-alleles.service.js';
import { type Mates, matesAmong } from './mates-among.js';

const KIND = 'whom to keep';
const MOST_HELD = 30;
/** Young whose errors are told together at most; beyond it they are taken as independent, which says "cannot be told apart" too often. */
const MOST_TOGETHER = 120;

/** Whom to keep of a brood, and what that rests on. */
export interface KeepingOfBrood {
  readonly lineId: string | null;
  readonly version: number;
  readonly hasAims: boolean;
  readonly number: NumberToKeep | null;
  readonly kept: { readonly males: number; readonly females: number; readonly others: number };
  readonly mates: Pick<Mates, 'are' | 'of'> & { readonly count: number };
  readonly alleles: readonly NamedAllele[];
  /** Living fish of the line, this brood among them. */
  readonly living: number;
  /** What could not be counted, in sentences. */
  readonly leftOut: readonly string[];
  readonly notCounted: Judged['basis']['notCounted'];
  readonly traits: Judged['traits'];
  readonly answer: BroodKeeping | null;
  readonly waiting: ComputationRow | null;
  /** Why there is no answer; `null` where there is one. */
  readonly problem: string | null;
}

/** Values the young of a brood for what their line is for. */
@Injectable()
export class KeepingService {
  private readonly kept: KeptAnswers<BroodKeeping>;

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly judging: JudgingService,
    private readonly beliefs: TraitBeliefsService,
    private readonly lineAlleles: LineAllelesService,
    private readonly howMany: HowManyService,
    computations: ComputationsService,
  ) {
    this.kept = new KeptAnswers(computations, MOST_HELD);
  }

  async of(spawnId: string, by: string): Promise<KeepingOfBrood> {
    const { manager } = this.dataSource;
    const spawn = await this.records.find(manager, spawnRecord, spawnId);
    const { id, lineId } = spawn;
    if (lineId === null)
      return nothing(
        'This spawn belongs to no line: correct it, so that it is known what its young are for.',
      );
    const own = await fishOfSpawn(manager, id);
    const inUse = { lineIds: [lineId], partners: true };
    const rows = (await candidateRows(manager, own, inUse)).filter(isLiving);
    const judged = await this.judging.stock({ lineIds: [lineId], includePartners: true }, by, own);
    const { basis } = judged;
    const number = await this.howMany.of(id, lineId, basis);
    const base = { ...told(judged), lineId, number, living: rows.length, kept: keptOf(rows, id) };
    if (basis.waiting !== null)
      return {
        ...base,
        waiting: basis.waiting,
        problem: 'What the fish pass on is still being worked out.',
      };
    const fish = new Map(judged.input.candidates.map((one) => [one.id, one]));
    const of = (list: readonly CandidateRow[]): PairingCandidate[] =>
      list.flatMap((row) => fish.get(row.id) ?? []);
    const young = of(rows.filter((row) => row.spawnId === id));
    if (young.length === 0)
      return {
        ...base,
        problem: 'No living young of this brood has a record of its own yet.',
      };
    const loci = judged.input.loci ?? [];
    const carried = await this.lineAlleles.of(basis.purpose, of(rows), loci, by);
    const { alleles, notKnown } = carried;
    const mates = matesAmong(rows, id);
    const whole = {
      ...base,
      alleles,
      leftOut: notKnown,
      mates: { are: mates.are, count: mates.list.length, of: mates.of },
    };
    if (carried.waiting !== null)
      return {
        ...whole,
        waiting: carried.waiting,
        problem: 'What the fish may carry is still being worked out.',
      };
    const answer = await this.answer(
      judged,
      { young, mates: of(mates.list), alleles, number },
      id,
      by,
    );
    return { ...whole, answer };
  }

  private answer(
    { input, basis }: Judged,
    asked: {
      readonly young: readonly PairingCandidate[];
      readonly mates: readonly PairingCandidate[];
      readonly alleles: readonly NamedAllele[];
      readonly number: NumberToKeep;
    },
    spawnId: string,
    by: string,
  ): Promise<BroodKeeping> {
    const { young, mates, number } = asked;
    const alleles = asked.alleles.map(({ locusId, alleleId, carrying, sole }) => ({
      ...{ locusId, alleleId, carrying, sole },
    }));
    const task = keepingTask(input.pedigree, {
      ...{ worth: basis.worth, young, mates, alleles, toKeep: number.toKeep },
      ...(input.loci && { loci: input.loci }),
    });
    const wanted = { kind: KIND, subject: spawnId, evidence: keyOfTask(task) };
    return this.kept.atOnce(wanted, by, async () => {
      const errorCorrelation = await this.errorsOf(basis, young, by);
      return besideTheLoop(keepingProgram, { ...task, input: { ...task.input, errorCorrelation } });
    });
  }

  /** How the errors of the young's values go together, by trait. */
  private async errorsOf(
    { worth, lineId }: Judged['basis'],
    young: readonly PairingCandidate[],
    by: string,
  ): Promise<Record<string, Float64Array>> {
    const found: Record<string, Float64Array> = {};
    if (young.length > MOST_TOGETHER) return found;
    const ids = young.map(({ id }) => id);
    const traitIds = worth.traits.map(({ traitId }) => traitId);
    const answers = await this.beliefs.ofAll(traitIds, { lineId, fishIds: ids, by });
    for (const [k, { belief }] of answers.entries())
      if (belief !== null) found[traitIds[k]!] = correlationOf(belief.error, ids.length);
    return found;
  }
}

const isLiving = ({ disposition, withdrawn }: CandidateRow): boolean =>
  !withdrawn && ['unsorted', 'keeper', 'hold'].includes(disposition);

const NO_KEPT = { males: 0, females: 0, others: 0 };

const nothing = (problem: string): KeepingOfBrood => ({
  ...{ lineId: null, version: 0, hasAims: false, number: null, kept: NO_KEPT, living: 0 },
  ...{ mates: { are: 'brood', count: 0, of: 0 }, alleles: [], leftOut: [], notCounted: [] },
  ...{ traits: new Map(), answer: null, waiting: null, problem },
});

const told = ({ basis, traits }: Judged): KeepingOfBrood => ({
  ...nothing(''),
  problem: null,
  version: basis.version,
  hasAims: hasAims(basis.purpose),
  notCounted: basis.notCounted,
  traits,
});

const keptOf = (rows: readonly CandidateRow[], spawnId: string): KeepingOfBrood['kept'] => {
  const kept = rows.filter((row) => row.spawnId === spawnId && row.disposition === 'keeper');
  const males = kept.filter(({ sex }) => sex === 'male').length;
  const females = kept.filter(({ sex }) => sex === 'female').length;
  return { males, females, others: kept.length - males - females };
};

const correlationOf = (error: Float64Array, size: number): Float64Array =>
  error.map((each, at) => {
    const [i, j] = [Math.floor(at / size), at % size];
    const scale = Math.sqrt(error[i * size + i]! * error[j * size + j]!);
    return scale > 0 ? each / scale : 0;
  });

/** One young of an answer. */
export const youngIn = (answer: BroodKeeping | null, fishId: string): YoungToKeep | null =>
  answer?.young.find(({ id }) => id === fishId.toLowerCase()) ?? null;
