import { multiplyRelationship } from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import type { Connection } from '../graphql/connection.js';
import { pageSize, readCursor, writeCursor } from '../graphql/page.js';
import { besideTheLoop } from '../jobs/beside.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { namedFish } from '../kinship/named-fish.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { toTrait } from '../shapes/score.mapper.js';
import { scoredTraits } from '../stock/merit-rows.js';
import type {
  FishMeritModel,
  FishValueModel,
  MeritReasonsModel,
  PlaceAmongModel,
  RankedFishModel,
} from './fish-merit.model.js';
import { type MeritAnswer, type ModelAnswer, PROBABILITIES } from './merit-answer.js';
import { reasonsProgram } from './merit-programs.js';
import { selectionOf } from './selection.js';
import { toRefusal } from './trait-merit.mapper.js';
import { meanOf } from './trait-figures.js';
import { answerSoFar, TraitMeritService, type TraitStanding } from './trait-merit.service.js';
import type { TraitStock } from './trait-records.service.js';

const MOST_REASONS = 30;

const shownOf = (answer: MeritAnswer): ModelAnswer | null =>
  answer.shown === 'threshold' ? answer.threshold : answer.linear;

/** Values of fish, out of what was worked out for their trait. */
@Injectable()
export class FishMeritService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly merit: TraitMeritService,
  ) {}

  async ofFish(fishId: string, by: string): Promise<FishMeritModel[]> {
    await this.pedigrees.index(fishId);
    const found: FishMeritModel[] = [];
    // The same for all traits as long as they were read from one pedigree.
    const relationships = new Map<Pedigree, Float64Array>();
    const related = (stock: TraitStock, fish: number): Float64Array => {
      const known = relationships.get(stock.pedigree) ?? relationshipTo(stock, fish);
      relationships.set(stock.pedigree, known);
      return known;
    };
    for (const { id } of await scoredTraits(this.dataSource)) {
      found.push(meritOf(await this.merit.of(id, by), fishId, related));
    }
    return found;
  }

  /** The best first: by what is wanted of the trait, more where neither way is. */
  async ranked(
    asked: { traitId: string; lineId: string | null; inUse: boolean },
    page: { first: number; after: string | null },
    by: string,
  ): Promise<Connection<RankedFishModel>> {
    const standing = await this.merit.of(asked.traitId, by);
    const { stock, waiting } = standing;
    const answer = answerSoFar(standing);
    const size = pageSize(page.first);
    const after = page.after === null ? null : readCursor(page.after);
    if (answer === null)
      throw new RequestError(
        'VALIDATION',
        'These values are being worked out: ask again when that is done.',
        { computationId: waiting?.id ?? null },
      );
    const model = shownOf(answer);
    if (model === null)
      return { edges: [], totalCount: 0, pageInfo: { hasNextPage: false, endCursor: null } };
    const order = rankedFish(stock, model, asked);
    const from =
      after === null ? 0 : 1 + order.findIndex((i) => stock.pedigree.ids[i] === after.id);
    const shown = order.slice(from, from + size);
    const named = await namedFish(
      this.dataSource,
      shown.map((i) => stock.pedigree.ids[i]!),
    );
    const edges = shown.map((i) => {
      const id = stock.pedigree.ids[i]!;
      return {
        cursor: writeCursor(null, id),
        node: {
          ...valueAt(answer.shown, model, i),
          fish: named.get(id)!,
          ownLooks: stock.task.fish.filter((one) => one === i).length,
        },
      };
    });
    return {
      edges,
      totalCount: order.length,
      pageInfo: {
        hasNextPage: from + size < order.length,
        endCursor: edges.at(-1)?.cursor ?? null,
      },
    };
  }

  async reasons(fishId: string, traitId: string, by: string): Promise<MeritReasonsModel | null> {
    await this.pedigrees.index(fishId);
    const standing = await this.merit.of(traitId, by);
    const { stock } = standing;
    const answer = answerSoFar(standing);
    if (answer?.linear == null || !answer.wholeStock || !stock.pedigree.has(fishId)) return null;
    const fish = stock.pedigree.indexOf(fishId);
    const all = await besideTheLoop(reasonsProgram, stock.task, answer.linear.shares, fish);
    const listed = all.slice(0, MOST_REASONS);
    const relationship = relationshipTo(stock, fish);
    const idOf = (i: number): string => stock.pedigree.ids[i]!;
    const named = await namedFish(
      this.dataSource,
      listed.map((one) => idOf(one.fish)),
    );
    const sum = (list: readonly { readonly contribution: number }[]): number =>
      list.reduce((total, { contribution }) => total + contribution, 0);
    return {
      fishId,
      value: sum(all),
      fishCount: all.length,
      restContribution: sum(all.slice(MOST_REASONS)),
      reasons: listed.map(({ fish: of, scores, weight, contribution }) => ({
        fish: named.get(idOf(of))!,
        relationship: relationship[of]!,
        looks: scores,
        weight,
        contribution,
      })),
    };
  }
}

const relationshipTo = ({ pedigree }: TraitStock, fish: number): Float64Array => {
  const one = new Float64Array(pedigree.size);
  one[fish] = 1;
  return multiplyRelationship(pedigree, one);
};

const valueAt = (
  kind: MeritAnswer['shown'],
  { values }: ModelAnswer,
  i: number,
): FishValueModel => ({
  kind,
  value: values.value[i]!,
  standardError: values.standardError[i]!,
  accuracy: values.accuracy[i]!,
  bands: PROBABILITIES.map((probability, k) => ({
    probability,
    low: values.bands[i * 6 + 2 * k]!,
    high: values.bands[i * 6 + 2 * k + 1]!,
  })),
});

interface Ranked {
  readonly lineId?: string | null;
  readonly spawnId?: string | null;
  readonly inUse?: boolean;
}

/** Standing fish of a stock, of one line, brood or all, in the order of their values. */
const rankedFish = (
  stock: TraitStock,
  { values }: ModelAnswer,
  { lineId = null, spawnId = null, inUse = false }: Ranked,
): number[] => {
  const better = stock.trait.higherIsBetter === false ? -1 : 1;
  return stock.pedigree.ids
    .map((_, i) => i)
    .filter((i) => {
      const facts = stock.facts.get(stock.pedigree.ids[i]!);
      if (facts?.standing !== true || (inUse && !facts.inUse)) return false;
      if (spawnId !== null && facts.spawnId !== spawnId) return false;
      return lineId === null || facts.lineId === lineId;
    })
    .sort((a, b) => better * (values.value[b]! - values.value[a]!) || a - b);
};

const placeIn = (order: readonly number[], i: number): PlaceAmongModel | null => {
  const at = order.indexOf(i);
  return at < 0 || order.length < 2 ? null : { place: at + 1, of: order.length };
};

/** One fish's part of an answer. */
const meritOf = (
  standing: TraitStanding,
  fishId: string,
  related: (stock: TraitStock, fish: number) => Float64Array,
): FishMeritModel => {
  const { stock, waiting, fromLast } = standing;
  const answer = answerSoFar(standing);
  const { pedigree, facts, task } = stock;
  const i = pedigree.has(fishId) ? pedigree.indexOf(fishId) : -1;
  const own = [...task.values].filter((_, row) => task.fish[row] === i);
  const model = answer === null ? null : shownOf(answer);
  const base = {
    trait: toTrait(stock.trait),
    selectionCaution: selectionOf(stock).message,
    ownLooks: own.length,
    ownMean: own.length === 0 ? null : meanOf(own),
    waiting: waiting === null ? null : toComputation(waiting),
    scoresTakenInSince: fromLast?.scoresMore ?? null,
    whyNotTakenIn: fromLast?.whyNot ?? null,
    refusal: answer === null || model !== null ? null : toRefusal(answer.linearRefusal),
  };
  if (model === null || answer === null || i < 0)
    return {
      ...base,
      ...{ value: null, lineMean: null, expectedYoung: null, scoredRelatives: 0 },
      ...{ amongSibs: null, inLine: null },
    };
  const relationship = related(stock, i);
  const { lineId = null, spawnId = null } = facts.get(fishId) ?? {};
  const ofLine = (inUse: boolean): number[] =>
    lineId === null ? [] : rankedFish(stock, model, { lineId, inUse });
  const inUse = ofLine(true);
  const line = inUse.length > 0 ? inUse : ofLine(false);
  const lineMean = line.length === 0 ? null : meanOf(line.map((k) => model.values.value[k]!));
  const value = valueAt(answer.shown, model, i);
  const band = value.bands.find(({ probability }) => probability === 0.8)!;
  const sibs = spawnId === null ? [] : rankedFish(stock, model, { spawnId });
  return {
    ...base,
    value,
    lineMean,
    // Half its own value comes to its young, and half the error with it.
    expectedYoung:
      lineMean === null
        ? null
        : { aboveLine: (value.value - lineMean) / 2, giveOrTake: (band.high - band.low) / 4 },
    scoredRelatives: [...new Set(task.fish)].filter((k) => k !== i && relationship[k]! > 0).length,
    amongSibs: placeIn(sibs, i),
    inLine: placeIn(inUse, i),
  };
};
