import { Args, Context, ID, Int, Query, Resolver } from '@nestjs/graphql';
import { notFound } from '../errors/request-error.js';
import { FishLoader } from '../fish/fish.loader.js';
import { toFish } from '../fish/fish.mapper.js';
import type { FishModel } from '../fish/fish.model.js';
import { SortDirection } from '../graphql/enums.js';
import { LARGEST_PAGE, pageSize, readCursor, writeCursor } from '../graphql/page.js';
import { toCrossExpectation } from '../heredity/heredity.mapper.js';
import { ExplanationMapper } from '../kinship/explanation.js';
import { basisOfPair } from '../kinship/pedigree.service.js';
import { SliceService } from '../kinship/slice.service.js';
import { parentsOf, toReason, toRowClasses, toTraitMeans, toWarning } from './judging.mapper.js';
import { JudgingService } from './judging.service.js';
import { OutcrossInput, PairingInput, PairingSortField } from './pairing.inputs.js';
import {
  HypotheticalBroodModel,
  OutcrossSuggestionModel,
  PairingCandidateConnectionModel,
  type PairingCandidateModel,
} from './pairing.model.js';
import { PairingsService } from './pairings.service.js';

const DRAWN_GENERATIONS = 8;

@Resolver(() => HypotheticalBroodModel)
export class JudgingResolver {
  constructor(
    private readonly judging: JudgingService,
    private readonly pairings: PairingsService,
    private readonly fishLoader: FishLoader,
    private readonly explanations: ExplanationMapper,
    private readonly slices: SliceService,
  ) {}

  @Query(() => PairingCandidateConnectionModel, {
    description: 'Every male by every female in use, judged; a page at a time.',
  })
  async pairingCandidates(
    @Args('input', { description: 'Which fish, and what counts.' }) input: PairingInput,
    @Args('sort', {
      type: () => PairingSortField,
      defaultValue: PairingSortField.MERIT,
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
    @Args('after', { type: () => String, nullable: true, description: 'Cursor to start behind.' })
    after: string | null,
    @Context() context: object,
  ): Promise<PairingCandidateConnectionModel> {
    const size = pageSize(first);
    const [{ judged, ranking }, planned] = await Promise.all([
      this.judging.rank(input, sort, direction),
      this.pairings.list(['planned']),
    ]);
    const from = after === null || after === undefined ? 0 : this.placeBehind(after);
    const plans = new Map(planned.map((p) => [`${p.sireId} ${p.damId}`, p.id]));
    const rows = ranking.rows(from, size);
    const ancestors = await this.judging.named(
      rows.flatMap((row) => row.commonAncestry.ancestors.map(({ id }) => id)),
    );
    const nodes = await Promise.all(
      rows.map(async (row): Promise<PairingCandidateModel> => ({
        sire: await this.fish(row.sireId, context),
        dam: await this.fish(row.damId, context),
        inbreedingCoefficient: row.inbreeding,
        inbreedingBasis: basisOfPair(
          judged.state,
          judged.state.pedigree.indexOf(row.sireId),
          judged.state.pedigree.indexOf(row.damId),
        ),
        merit: row.score,
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
      })),
    );
    const edges = nodes.map((node, i) => ({
      node,
      cursor: writeCursor(String(from + i + 1), node.sire.id),
    }));
    return {
      edges,
      pageInfo: {
        hasNextPage: from + nodes.length < ranking.length,
        endCursor: edges.at(-1)?.cursor ?? null,
      },
      totalCount: ranking.length,
      maleCount: ranking.maleCount,
      femaleCount: ranking.femaleCount,
    };
  }

  @Query(() => HypotheticalBroodModel, {
    description: 'What a pair would give: F with its paths, classes, means, warnings.',
  })
  async hypotheticalBrood(
    @Args('sireId', { type: () => ID, description: 'The male.' }) sireId: string,
    @Args('damId', { type: () => ID, description: 'The female.' }) damId: string,
    @Args('broodSize', {
      type: () => Int,
      nullable: true,
      description: 'Young to expect counts for.',
    })
    broodSize: number | null,
    @Context() context: object,
  ): Promise<HypotheticalBroodModel> {
    const { judged, explanation } = await this.judging.explain(sireId, damId);
    return {
      sire: await this.fish(sireId, context),
      dam: await this.fish(damId, context),
      inbreedingCoefficient: explanation.inbreeding,
      inbreedingBasis: basisOfPair(
        judged.state,
        judged.state.pedigree.indexOf(sireId),
        judged.state.pedigree.indexOf(damId),
      ),
      inbreedingNote: await this.explanations.whyUncertain([sireId, damId]),
      inbreeding: await this.explanations.ofBrood(sireId, damId, 50),
      slice: await this.slices.ofBrood(sireId, damId, DRAWN_GENERATIONS, explanation.inbreeding),
      classes: toCrossExpectation(
        explanation.expected,
        broodSize ?? null,
        parentsOf(judged.input, sireId, damId),
      ),
      warnings: explanation.warnings.map(toWarning),
      traitMeans: toTraitMeans(explanation.traits, judged.traits),
      reasons: explanation.reasons.map(toReason),
    };
  }

  @Query(() => [OutcrossSuggestionModel], {
    description: 'Partners least related to a line that carry what it wants.',
  })
  async outcrosses(
    @Args('input', { description: 'The line and what it wants.' }) input: OutcrossInput,
    @Context() context: object,
  ): Promise<OutcrossSuggestionModel[]> {
    const found = await this.judging.outcrosses(input);
    return Promise.all(
      found.map(async (s) => ({
        fish: await this.fish(s.fishId, context),
        meanCoancestry: s.meanCoancestry,
        reasons: s.reasons.map(toReason),
        warnings: s.cautions.map(toWarning),
      })),
    );
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
