import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { After, First } from '../graphql/page.js';
import { CurrentPerson } from '../accounts/session.guard.js';
import { mapPage } from '../graphql/connection.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from './computation.mapper.js';
import { ComputationConnectionModel, ComputationModel } from './computation.model.js';
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

  @Query(() => ComputationConnectionModel, {
    description: 'The long computations, newest first, a page at a time.',
  })
  async computations(
    @First() first: number,
    @After() after: string | null,
  ): Promise<ComputationConnectionModel> {
    return mapPage(await this.service.list(first, after), toComputation);
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
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ComputationModel> {
    return toComputation(await this.service.again(id, person.name));
  }
}
