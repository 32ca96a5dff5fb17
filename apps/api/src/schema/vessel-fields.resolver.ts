import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { FishModel } from '../shapes/fish.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { VesselLoader } from '../stock/vessel.loader.js';
import { toStay } from '../vessels/vessel.mapper.js';
import { VesselStayModel } from '../vessels/vessel.model.js';

/** In which vessel a fish is now. */
@Resolver(() => FishModel)
export class FishVesselResolver {
  constructor(private readonly loader: VesselLoader) {}

  @ResolveField(() => VesselStayModel, {
    nullable: true,
    description: 'Where it is kept now; null when it is in no vessel on record.',
  })
  async stay(@Parent() { id }: FishModel, @Context() context: object) {
    const [stay] = await this.loader.ofFish.of(context).load(id);
    return stay === undefined ? null : toStay(stay);
  }
}

/** In which vessel a spawn is now. */
@Resolver(() => SpawnModel)
export class SpawnVesselResolver {
  constructor(private readonly loader: VesselLoader) {}

  @ResolveField(() => VesselStayModel, {
    nullable: true,
    description: 'Where it is kept now; null when it is in no vessel on record.',
  })
  async stay(@Parent() { id }: SpawnModel, @Context() context: object) {
    const [stay] = await this.loader.ofSpawn.of(context).load(id);
    return stay === undefined ? null : toStay(stay);
  }
}
