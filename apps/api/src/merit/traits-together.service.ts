import { createHash } from 'node:crypto';
import { normalQuantile } from '@linewright/merit';
import { Inject, Injectable } from '@nestjs/common';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { fieldError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { ComputationsService, EvidenceMoved, type Watcher } from '../jobs/computations.service.js';
import { KeptAnswers } from '../jobs/kept-answers.js';
import { runInThread, threadFile } from '../jobs/thread.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { toTrait } from '../shapes/score.mapper.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { togetherProgram } from './merit-programs.js';
import { runTogether, type TogetherAnswer } from './run-together.js';
import { selectionOf } from './selection.js';
import { togetherTask } from './together-task.js';
import { meanOf } from './trait-figures.js';
import { toRefusal } from './trait-merit.mapper.js';
import { type TraitStock, TraitRecordsService } from './trait-records.service.js';
import type { TraitsTogetherModel, ValueFromBothModel } from './traits-together.model.js';

const KIND = 'traits together';
const threadProgram = threadFile('merit-worker.js');
/** Raised whenever answers get another shape: those stored in an older one are not served. */
const SHAPE = '2';
const MOST_HELD = 10;
/** Fish up to which it is worked out while one waits: some two seconds. */
const MOST_AT_ONCE = 1_000;
/** Four of five cases of a normal spread lie within so many standard errors. */
const FOUR_OF_FIVE = normalQuantile(0.9);

/** Two traits with the records behind them, the first by id first. */
type Pair = readonly [TraitStock, TraitStock];

/** What two traits have in common, and what fish pass on by the scores of both. */
@Injectable()
export class TraitsTogetherService {
  private readonly kept: KeptAnswers<TogetherAnswer>;

  constructor(
    private readonly records: TraitRecordsService,
    private readonly pedigrees: PedigreeService,
    computations: ComputationsService,
    @Inject(CONFIG) private readonly config: Config,
  ) {
    this.kept = new KeptAnswers(computations, MOST_HELD);
    computations.register(KIND, (subject, key, watcher) => this.workOut(subject, key, watcher));
  }

  async of(
    { traitId, otherId, fishId }: { traitId: string; otherId: string; fishId: string | null },
    by: string,
  ): Promise<TraitsTogetherModel> {
    if (fishId !== null) await this.pedigrees.index(fishId);
    if (traitId === otherId)
      throw fieldError({ field: 'otherId', message: 'That is the same trait: choose another.' });
    const pair = await this.pair(traitId, otherId);
    const { answer, waiting } = await this.standing(pair, by);
    const turned = pair[0].trait.id !== traitId;
    const [trait, other] = turned ? [pair[1], pair[0]] : pair;
    return toTogether({ trait, other, turned, answer, waiting, fishId });
  }

  private async pair(traitId: string, otherId: string): Promise<Pair> {
    const [first, second] = [traitId, otherId].toSorted();
    return [await this.records.of(first!), await this.records.of(second!)];
  }

  private standing(
    pair: Pair,
    by: string,
  ): Promise<{ answer: TogetherAnswer | null; waiting: ComputationRow | null }> {
    const [first, second] = pair;
    const wanted = {
      kind: KIND,
      subject: JSON.stringify([first.trait.id, second.trait.id]),
      evidence: keyOf(pair),
    };
    const { size } = first.pedigree;
    if (size >= this.config.longFromFish || size > MOST_AT_ONCE)
      return this.kept.inTime(wanted, by);
    return this.kept
      .atOnce(wanted, by, () => besideTheLoop(togetherProgram, togetherTask(first, second)))
      .then((answer) => ({ answer, waiting: null }));
  }

  private async workOut(subject: string, key: string, watcher: Watcher): Promise<TogetherAnswer> {
    const [first, second] = JSON.parse(subject) as [string, string];
    const pair = await this.pair(first, second);
    if (keyOf(pair) !== key) throw new EvidenceMoved();
    const task = togetherTask(...pair);
    return threadProgram === undefined
      ? runTogether(task, watcher.onProgress)
      : runInThread<TogetherAnswer>(threadProgram, task, watcher);
  }
}

const keyOf = ([first, second]: Pair): string =>
  createHash('sha256')
    .update(JSON.stringify([SHAPE, first.key, second.key]))
    .digest('hex')
    .slice(0, 32);

interface Standing {
  readonly trait: TraitStock;
  readonly other: TraitStock;
  /** Whether the trait stands second in the answer. */
  readonly turned: boolean;
  readonly answer: TogetherAnswer | null;
  readonly waiting: ComputationRow | null;
  readonly fishId: string | null;
}

const toTogether = (standing: Standing): TraitsTogetherModel => {
  const { trait, other, answer, waiting } = standing;
  const scored = (stock: TraitStock): Set<string> =>
    new Set(stock.looks.map(({ fishId }) => fishId));
  const [one, two] = [scored(trait), scored(other)];
  const found = answer?.found ?? null;
  return {
    trait: toTrait(trait.trait),
    other: toTrait(other.trait),
    fishScored: new Set([...one, ...two]).size,
    fishWithBoth: [...one].filter((id) => two.has(id)).length,
    verdict: found?.verdict ?? null,
    likelihoodRatio: found?.likelihoodRatio ?? null,
    correlations: (found?.correlations ?? []).map(({ name, correlation }) => ({
      part: name,
      correlation: correlation?.value ?? null,
      standardError: correlation?.standardError ?? null,
    })),
    ofFish: ofFish(standing),
    notes: [...(answer?.notes ?? [])],
    selectionCaution: selectionOf(trait).message ?? selectionOf(other).message,
    refusal: toRefusal(answer?.refusal ?? null),
    waiting: waiting === null ? null : toComputation(waiting),
  };
};

/** Both values of one fish, that of the trait that was asked about first. */
const ofFish = ({ trait, other, turned, answer, fishId }: Standing): ValueFromBothModel[] => {
  const { pedigree, facts } = turned ? other : trait;
  if (answer?.found == null || fishId === null || !pedigree.has(fishId)) return [];
  const { values } = answer.found;
  const i = pedigree.indexOf(fishId);
  const lineId = facts.get(fishId)?.lineId ?? null;
  const ofLine = pedigree.ids.flatMap((id, k) => {
    const one = facts.get(id);
    return lineId !== null && one?.standing === true && one.lineId === lineId
      ? [{ k, inUse: one.inUse }]
      : [];
  });
  const inUse = ofLine.filter((one) => one.inUse);
  const line = (inUse.length > 0 ? inUse : ofLine).map(({ k }) => k);
  return [trait, other].map((stock, place): ValueFromBothModel => {
    const { value, standardError } = values[turned ? 1 - place : place]!;
    return {
      trait: toTrait(stock.trait),
      value: value[i]!,
      standardError: standardError[i]!,
      // Half its own value comes to its young, and half the error with it.
      aboveLine: line.length === 0 ? null : (value[i]! - meanOf(line.map((k) => value[k]!))) / 2,
      giveOrTake: (FOUR_OF_FIVE * standardError[i]!) / 2,
    };
  });
};
