import { coancestry } from '@linewright/kinship';
import { Args, Float, ID, Int, Query, Resolver } from '@nestjs/graphql';
import { PedigreeSliceModel } from './kinship.model.js';
import { PedigreeService } from './pedigree.service.js';
import { SliceService } from './slice.service.js';

@Resolver(() => PedigreeSliceModel)
export class KinshipResolver {
  constructor(
    private readonly slices: SliceService,
    private readonly pedigrees: PedigreeService,
  ) {}

  @Query(() => PedigreeSliceModel, {
    description: 'Ancestors and descendants of a fish, each once.',
  })
  pedigree(
    @Args('fishId', { type: () => ID, description: 'The fish in the middle.' }) fishId: string,
    @Args('ancestorGenerations', {
      type: () => Int,
      defaultValue: 6,
      description: 'Generations up.',
    })
    up: number,
    @Args('descendantGenerations', {
      type: () => Int,
      defaultValue: 2,
      description: 'Generations down.',
    })
    down: number,
    @Args('limit', { type: () => Int, defaultValue: 1200, description: 'Most fish to return.' })
    limit: number,
  ): Promise<PedigreeSliceModel> {
    return this.slices.around(fishId, up, down, limit);
  }

  @Query(() => Float, {
    description: 'Coancestry of two fish: F of a brood of theirs, were they to mate.',
  })
  async coancestry(
    @Args('aId', { type: () => ID, description: 'One fish.' }) aId: string,
    @Args('bId', { type: () => ID, description: 'The other.' }) bId: string,
  ): Promise<number> {
    const { state, index } = await this.pedigrees.index(aId);
    return coancestry(state.pedigree, index, (await this.pedigrees.index(bId)).index);
  }
}
