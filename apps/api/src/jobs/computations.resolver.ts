import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentKeeper } from '../accounts/session.guard.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { toComputation } from './computation.mapper.js';
import { ComputationModel } from './computation.model.js';
import { ComputationsService } from './computations.service.js';

@Resolver(() => ComputationModel)
export class ComputationsResolver {
  constructor(private readonly service: ComputationsService) {}

  @Query(() => ComputationModel, { description: 'One long computation.' })
  async computation(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<ComputationModel> {
    return toComputation(await this.service.one(id));
  }

  @Query(() => [ComputationModel], { description: 'The latest long computations, newest first.' })
  async computations(): Promise<ComputationModel[]> {
    return (await this.service.list()).map(toComputation);
  }

  @Mutation(() => ComputationModel, {
    description: 'Stops a long computation, in whichever process it runs.',
  })
  async cancelComputation(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<ComputationModel> {
    return toComputation(await this.service.cancel(id));
  }

  @Mutation(() => ComputationModel, {
    description: 'Begins a stopped or failed computation again.',
  })
  async restartComputation(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<ComputationModel> {
    return toComputation(await this.service.again(id, keeper.name));
  }
}
