import { judgePairings, type PairingCandidate, type RankedPairing } from '@linewright/mating';
import { Args, Context, ID, Int, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { notFound } from '../errors/request-error.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import type { FishModel } from '../shapes/fish.model.js';
import { SortDirection } from '../graphql/enums.js';
import { After, LARGEST_PAGE, pageSize, readCursor } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toCrossExpectation } from '../shapes/heredity.mapper.js';
import { ExplanationMapper } from '../kinship/explanation.js';
import { FishNames } from '../kinship/fish-names.js';
import { SliceService } from '../kinship/slice.service.js';
import {
  parentsOf,
  toCandidates,
  toReason,
  toRowClasses,
  toTraitMeans,
  toWarning,
} from './judging.mapper.js';
import { OutcrossesService } from './outcrosses.service.js';
import { type Judged, JudgingService } from './judging.service.js';
import { PairListService } from './pair-list.service.js';
import { OutcrossInput, PairingInput, PairingSortField } from './pairing.inputs.js';
import {
  PlannedBroodModel,
  OutcrossSuggestionModel,
  PairingCandidateConnectionModel,
  type PairingCandidateModel,
} from './pairing.model.js';
import { PairingsService } from './pairings.service.js';
import { ConditionsService } from './conditions.service.js';
import { pairsOf } from './pair-task.js';
import { toPairBasis, toPassing, toWorth } from './worth.mapper.js';
import { type ConditionOfFishModel, WorthDifferenceModel } from './worth.model.js';

const DRAWN_GENERATIONS = 8;

@Resolver(() => PlannedBroodModel)
export class JudgingResolver {
  constructor(
    private readonly judging: JudgingService,
    private readonly suggestions: OutcrossesService,
    private readonly lists: PairListService,
    private readonly pairings: PairingsService,
    private readonly fishLoader: FishLoader,
    private readonly explanations: ExplanationMapper,
    private readonly names: FishNames,
    private readonly slices: SliceService,
    private readonly conditions: ConditionsService,
  ) {}

  @Query(() => PairingCandidateConnectionModel, {
    description: 'Every male by every female in use, judged; a page at a time.',
  })
  async pairingCandidates(
    @Args('input', { description: 'Which fish, and what counts.' }) input: PairingInput,
    @Args('sort', {
      type: () => PairingSortField,
      defaultValue: PairingSortField.WORTH,
      description: 'Sorted by.',
    })
    sort: PairingSortField,
    @Args('direction', {
      type: () => SortDirection,
      defaultValue: SortDirection.DESC,
      description: 'Which way.',
    })
    direction: SortDirection,
    @Args('first', {
      type: () => Int,
      defaultValue: 50,
      description: `How many, at most ${LARGEST_PAGE}.`,
    })
    first: number,
    @After() after: string | null,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<PairingCandidateConnectionModel> {
    const size = pageSize(first);
    const from = after === null || after === undefined ? 0 : this.placeBehind(after);
    const [list, plans] = await Promise.all([
      this.lists.of({ input, sort, direction }, person.name),
      this.plans(),
    ]);
    const page = list.answer === null ? [] : pairsOf(list.answer, from, size);
    const nodes = await Promise.all(
      judgePairings(list.judged.input, page, list.answer?.best).map((row) =>
        this.judgement(row, list.judged, plans, context),
      ),
    );
    return toCandidates(nodes, from, list);
  }

  @Query(() => PlannedBroodModel, {
    description: 'What a pair would give: F with its paths, classes, means, warnings.',
  })
  async plannedBrood(
    @Args('sireId', { type: () => ID, description: 'The male.' }) sireId: string,
    @Args('damId', { type: () => ID, description: 'The female.' }) damId: string,
    @Args('broodSize', {
      type: () => Int,
      nullable: true,
      description: 'Young to expect counts for.',
    })
    broodSize: number | null,
    @Args('input', {
      type: () => PairingInput,
      nullable: true,
      description:
        'The choice whose list it is compared with, so that both say the same; the line that both are of, if they are of one, when absent.',
    })
    input: PairingInput | null,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<PlannedBroodModel> {
    const [{ judged, row, passing }, plans] = await Promise.all([
      this.judging.explain(sireId, damId, input, person.name),
      this.plans(),
    ]);
    return {
      ...(await this.judgement(row, judged, plans, context)),
      passing: toPassing(passing),
      basis: toPairBasis(judged),
      sireCondition: await this.condition(sireId, judged),
      damCondition: await this.condition(damId, judged),
      lineWithYoung: await this.conditions.ofLineWithYoung(
        this.candidate(sireId, judged),
        this.candidate(damId, judged),
        passing.wanted,
        judged,
      ),
      inbreedingNote: await this.explanations.whyUncertain([sireId, damId]),
      inbreeding: await this.explanations.ofBrood(sireId, damId, 50),
      slice: await this.slices.ofBrood(sireId, damId, DRAWN_GENERATIONS, row.inbreeding),
      classes: toCrossExpectation(
        row.expected,
        broodSize ?? null,
        parentsOf(judged.input, sireId, damId),
      ),
    };
  }

  @Query(() => WorthDifferenceModel, {
    description: 'How far two pairs lie apart in worth, with the error of the difference.',
  })
  pairDifference(
    @Args('sireId', { type: () => ID, description: 'The male of the first.' }) sireId: string,
    @Args('damId', { type: () => ID, description: 'The female of the first.' }) damId: string,
    @Args('otherSireId', { type: () => ID, description: 'The male of the second.' })
    otherSireId: string,
    @Args('otherDamId', { type: () => ID, description: 'The female of the second.' })
    otherDamId: string,
    @Args('input', {
      type: () => PairingInput,
      nullable: true,
      description:
        'The choice that both are judged by; as for plannedBrood of the first when absent.',
    })
    input: PairingInput | null,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<WorthDifferenceModel> {
    const other = { sireId: otherSireId, damId: otherDamId };
    return this.judging.difference({ sireId, damId }, other, input, person.name);
  }

  @Query(() => [OutcrossSuggestionModel], {
    description: 'Partners least related to a line that carry what it wants.',
  })
  async outcrosses(
    @Args('input', { description: 'The line and what it wants.' }) input: OutcrossInput,
    @Context() context: object,
  ): Promise<OutcrossSuggestionModel[]> {
    const found = await this.suggestions.of(input);
    return Promise.all(
      found.map(async (s) => ({
        fish: await this.fish(s.fishId, context),
        meanCoancestry: s.meanCoancestry,
        basis: s.basis,
        reasons: s.reasons.map(toReason),
        warnings: s.cautions.map(toWarning),
      })),
    );
  }

  /** One pair as every screen tells it. */
  private async judgement(
    row: RankedPairing,
    judged: Judged,
    plans: ReadonlyMap<string, string>,
    context: object,
  ): Promise<PairingCandidateModel> {
    const ancestors = await this.names.of(row.commonAncestry.ancestors.map(({ id }) => id));
    return {
      sire: await this.fish(row.sireId, context),
      dam: await this.fish(row.damId, context),
      inbreedingCoefficient: row.inbreeding,
      inbreedingBasis: row.basis,
      worth: toWorth(row.worth, judged),
      discouraged: row.discouraged,
      mainAncestors: row.commonAncestry.ancestors.map((a) => ({
        ancestor: ancestors.get(a.id)!,
        pathCount: a.pathCount,
        contribution: a.contribution,
      })),
      classes: toRowClasses(row, judged.input),
      traitMeans: toTraitMeans(row.traits, judged.traits),
      warnings: row.warnings.map(toWarning),
      reasons: row.reasons.map(toReason),
      plannedPairingId: plans.get(`${row.sireId} ${row.damId}`) ?? null,
    };
  }

  private condition(id: string, judged: Judged): Promise<ConditionOfFishModel> {
    return this.conditions.of(this.candidate(id, judged), judged);
  }

  private candidate(id: string, { input }: Judged): PairingCandidate {
    const fish = input.candidates.find((one) => one.id === id.toLowerCase());
    if (fish === undefined) throw notFound('fish', id);
    return fish;
  }

  private async plans(): Promise<Map<string, string>> {
    const planned = await this.pairings.list(['planned']);
    return new Map(planned.map((p) => [`${p.sireId} ${p.damId}`, p.id]));
  }

  private placeBehind(cursor: string): number {
    return Number(readCursor(cursor).key ?? 0);
  }

  private async fish(id: string, context: object): Promise<FishModel> {
    const row = await this.fishLoader.byId.of(context).load(id);
    if (row === null) throw notFound('fish', id);
    return toFish(row);
  }
}
