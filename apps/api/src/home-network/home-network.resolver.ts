import { Args, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ForOwner } from '../accounts/session.guard.js';
import { HomeNetworkModel, toHomeNetwork } from './home-network.model.js';
import { HomeNetworkService } from './home-network.service.js';

@Resolver()
export class HomeNetworkResolver {
  constructor(private readonly network: HomeNetworkService) {}

  @Query(() => HomeNetworkModel, { description: 'Whether and where phones at home reach this.' })
  async homeNetwork(): Promise<HomeNetworkModel> {
    return toHomeNetwork(await this.network.state());
  }

  @ForOwner()
  @Mutation(() => HomeNetworkModel, {
    description:
      'Opens this install to phones at home, or closes it to them; at once, and over restarts. Refused while the owner has no password (PASSWORD_FIRST).',
  })
  async chooseHomeNetwork(
    @Args('open', { type: () => Boolean, description: 'True to open it.' }) open: boolean,
  ): Promise<HomeNetworkModel> {
    return toHomeNetwork(await this.network.choose(open));
  }
}
