import {
  Args,
  Context,
  ID,
  Int,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { notFound } from '../errors/request-error.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { SpawnsService } from '../spawns/spawns.service.js';
import { toGenotype } from '../loci/genotype.mapper.js';
import { GenotypeModel, RecordGenotypeInput } from '../loci/genotype.model.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import { CountsService } from './counts.service.js';
import { CrossesService } from './crosses.service.js';
import {
  BroodSizeInput,
  CrossExpectationModel,
  CrossInput,
  FitInput,
  FitResultModel,
} from '../shapes/heredity.model.js';

@Resolver(() => GenotypeModel)
export class HeredityResolver {
  constructor(
    private readonly genotypes: GenotypesService,
    private readonly crosses: CrossesService,
    private readonly counts: CountsService,
    private readonly spawns: SpawnsService,
    private readonly fishLoader: FishLoader,
  ) {}

  @Query(() => CrossExpectationModel, {
    description: 'Expected classes of two parents given by genotype.',
  })
  cross(
    @Args('input', { description: 'The parents.' }) input: CrossInput,
  ): Promise<CrossExpectationModel> {
    return this.crosses.byGenotype(input);
  }

  @Query(() => Int, { description: 'How many fry to raise to see enough of a class.' })
  broodSize(
    @Args('input', { description: 'Share, number and certainty.' }) input: BroodSizeInput,
  ): Promise<number> {
    return this.counts.broodSize(input);
  }

  @Query(() => FitResultModel, {
    description: 'Tests an observed brood against an expectation; counts only, never percentages.',
  })
  goodnessOfFit(
    @Args('input', { description: 'The classes.' }) input: FitInput,
  ): Promise<FitResultModel> {
    return this.counts.fit(input);
  }

  @Query(() => CrossExpectationModel, {
    description: "Expected classes of a recorded spawn, from its parents' genotypes.",
  })
  async spawnExpectation(
    @Args('spawnId', { type: () => ID, description: 'The spawn.' }) spawnId: string,
  ): Promise<CrossExpectationModel> {
    const { sireId, damId } = await this.spawns.one(spawnId);
    return this.crosses.ofParents(sireId, damId);
  }

  @Mutation(() => GenotypeModel, { description: 'Records what a fish carries at a locus.' })
  async recordGenotype(
    @Args('input', { description: 'The genotype.' }) input: RecordGenotypeInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<GenotypeModel> {
    return toGenotype(await this.genotypes.record(input, person));
  }

  @Mutation(() => GenotypeModel, { description: 'Withdraws a genotype.' })
  async withdrawGenotype(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<GenotypeModel> {
    return toGenotype(await this.genotypes.withdraw(input, person));
  }

  @ResolveField(() => FishModel, { description: 'The fish.' })
  async fish(@Parent() genotype: GenotypeModel, @Context() context: object): Promise<FishModel> {
    const row = await this.fishLoader.byId.of(context).load(genotype.fishId);
    if (row === null) throw notFound('fish', genotype.fishId);
    return toFish(row);
  }
}
