import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { beliefsProgram } from './merit-programs.js';
import type { ModelAnswer } from './merit-answer.js';
import type { BeliefTask, TraitBelief } from './trait-belief.js';
import { fishOfLevel } from './trait-figures.js';
import { TraitMeritService, type TraitStanding } from './trait-merit.service.js';

/** Beliefs kept in memory, the last asked for: pages that wait ask for the same ones again and again. */
const MOST_HELD = 24;
/** Fish on record whose values are told before they were worked out: some tenths of a second. */
const MOST_FOR_NOW = 20_000;

/** What is believed of a trait in some fish; why nothing is, or what is waited for first. */
export type TraitBeliefAnswer =
  | {
      readonly belief: TraitBelief;
      readonly name: string;
      /** It holds until these values are worked out; null: they are. */
      readonly until: ComputationRow | null;
    }
  | {
      readonly belief: null;
      readonly name: string;
      readonly why: string;
      readonly waiting: ComputationRow | null;
    };

/** Which fish are asked about, and for whom. */
export interface BeliefAsked {
  /** Line whose scored fish tell the level, where there are enough of them. */
  readonly lineId: string | null;
  readonly fishIds: readonly string[];
  readonly by: string;
  /** While values are worked out, what the scores say at the shares known last, or the usual ones. */
  readonly forNow?: boolean;
}

/** What there is to be said of a trait without its belief, or what the belief is made from. */
type Begun =
  | { readonly from: null; readonly answer: TraitBeliefAnswer }
  | {
      readonly from: BeliefTask & { readonly key: string };
      readonly name: string;
      readonly until: ComputationRow | null;
      /** Said where nothing can be solved. */
      readonly otherwise: TraitBeliefAnswer;
    };

/** Breeding values of fish together with how their errors go together, for what simulates them. */
@Injectable()
export class TraitBeliefsService {
  private readonly held = new LastUsed<Promise<TraitBelief | null>>(MOST_HELD);

  constructor(private readonly merit: TraitMeritService) {}

  /** Of each of these traits; in one thread, which takes longer to begin than a trait to solve. */
  async ofAll(traitIds: readonly string[], asked: BeliefAsked): Promise<TraitBeliefAnswer[]> {
    const begun = await Promise.all(
      traitIds.map(async (traitId) => begin(await this.merit.of(traitId, asked.by), asked)),
    );
    const tasks = begun.flatMap(({ from }) => from ?? []);
    const found = await this.solved(tasks);
    return begun.map((one): TraitBeliefAnswer => {
      if (one.from === null) return one.answer;
      const belief = found[tasks.indexOf(one.from)] ?? null;
      return belief === null ? one.otherwise : { belief, name: one.name, until: one.until };
    });
  }

  private solved(
    tasks: readonly (BeliefTask & { readonly key: string })[],
  ): Promise<(TraitBelief | null)[]> {
    const fresh = tasks.filter(({ key }) => this.held.get(key) === undefined);
    let together: Promise<(TraitBelief | null)[]> | null = null;
    const work = async (task: BeliefTask & { readonly key: string }) => {
      const at = fresh.indexOf(task);
      // Whoever worked it out gave up meanwhile.
      if (at < 0) return (await besideTheLoop(beliefsProgram, [task]))[0] ?? null;
      together ??= besideTheLoop(beliefsProgram, fresh);
      return (await together)[at] ?? null;
    };
    return Promise.all(tasks.map((task) => workedOutOnce(this.held, task.key, () => work(task))));
  }
}

const begin = (
  { stock, answer, waiting, fromLast }: TraitStanding,
  { lineId, fishIds, forNow = false }: BeliefAsked,
): Begun => {
  const { trait, pedigree, task, key } = stock;
  const none = (why: string, until: ComputationRow | null = null): Begun & { from: null } => ({
    from: null,
    answer: { belief: null, name: trait.name, waiting: until, why },
  });
  const from = (model: BeliefTask['model']) => {
    const fish = fishIds.map((id) => pedigree.indexOf(id));
    const level = fishOfLevel(stock, lineId);
    return { task, model, fish, level, key: JSON.stringify([trait.id, key, model, fish, level]) };
  };
  if (answer === null) {
    const later = none('its values are being worked out.', waiting);
    const last = fromLast?.answer;
    const known = last != null && last.wholeStock ? last.linear : null;
    if (!forNow || (known === null && pedigree.size > MOST_FOR_NOW)) return later;
    const model = known === null ? null : sharesIn(known);
    return { from: from(model), name: trait.name, until: waiting, otherwise: later.answer };
  }
  if (answer.linear === null) return none(answer.linearRefusal?.message ?? 'no reason given');
  const tooMany = none(
    'there are too many fish on record to know how the errors of their values go together.',
  );
  if (!answer.wholeStock) return tooMany;
  const model = sharesIn(answer.linear);
  return { from: from(model), name: trait.name, until: null, otherwise: tooMany.answer };
};

const sharesIn = ({ shares, variance }: ModelAnswer): BeliefTask['model'] => ({ shares, variance });
