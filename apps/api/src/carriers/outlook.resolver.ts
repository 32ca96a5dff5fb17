import { Args, Context, ID, Int, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { BroodOutlookService } from './brood-outlook.service.js';
import { ContradictionsModel, TestMatingsInput, TestMatingsModel } from './contradictions.model.js';
import { ContradictionsService } from './contradictions.service.js';
import { BroodOutlookModel, PairOutlookModel } from './outlook.model.js';
import { PairOutlookService } from './pair-outlook.service.js';
import { RecordLinks } from './record-links.js';
import { TestMatingsService } from './test-matings.service.js';

@Resolver()
export class OutlookResolver {
  constructor(
    private readonly pairs: PairOutlookService,
    private readonly broods: BroodOutlookService,
    private readonly contradictionFinder: ContradictionsService,
    private readonly tests: TestMatingsService,
    private readonly links: RecordLinks,
  ) {}

  @Query(() => PairOutlookModel, {
    description: 'What a planned pair may give, as a mixture over all that the two may be.',
  })
  pairOutlook(
    @Args('sireId', { type: () => ID, description: 'Sire.' }) sireId: string,
    @Args('damId', { type: () => ID, description: 'Dam.' }) damId: string,
    @Args('broodSize', { type: () => Int, defaultValue: 100, description: 'Young to expect.' })
    broodSize: number,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PairOutlookModel> {
    return this.pairs.outlook(sireId, damId, broodSize, person);
  }

  @Query(() => BroodOutlookModel, {
    description:
      'A counted brood against what all other records lead to expect of its parents, with rival explanations.',
    complexity: ({ childComplexity }) => 1 + childComplexity * 3,
  })
  async broodOutlook(
    @Args('spawnId', { type: () => ID, description: 'The spawn.' }) spawnId: string,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<BroodOutlookModel> {
    const outlook = await this.broods.outlook(spawnId, person);
    for (const { heterogeneity } of outlook.loci) {
      for (const brood of heterogeneity?.broods ?? [])
        brood.spawn = await this.links.spawn(brood.spawnId, context);
    }
    return outlook;
  }

  @Query(() => ContradictionsModel, {
    description: 'Records that cannot all be true, of the whole stock or about one fish or spawn.',
    complexity: ({ childComplexity }) => 1 + childComplexity * 5,
  })
  contradictions(
    @Args('fishId', { type: () => ID, nullable: true, description: 'Only about this fish.' })
    fishId: string | null,
    @Args('spawnId', { type: () => ID, nullable: true, description: 'Only about this spawn.' })
    spawnId: string | null,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<ContradictionsModel> {
    const about = { fishId: fishId ?? null, spawnId: spawnId ?? null };
    return this.contradictionFinder.find(about, person, context);
  }

  @Query(() => TestMatingsModel, {
    description:
      'Which partner would tell most about what a fish carries, and how many fry it takes.',
    complexity: ({ childComplexity }) => 1 + childComplexity * 20,
  })
  testMatings(
    @Args('input', { description: 'The fish and the locus.' }) input: TestMatingsInput,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<TestMatingsModel> {
    return this.tests.rank(input, person, context);
  }
}
