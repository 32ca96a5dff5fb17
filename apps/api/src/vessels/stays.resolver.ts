import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import { toSpawn } from '../shapes/spawn.mapper.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { FishLoader } from '../stock/fish.loader.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { VesselLoader } from '../stock/vessel.loader.js';
import { notFound } from '../errors/request-error.js';
import { toVessel } from './vessel.mapper.js';
import { VesselModel, VesselStayModel } from './vessel.model.js';

@Resolver(() => VesselStayModel)
export class StaysResolver {
  constructor(
    private readonly vessels: VesselLoader,
    private readonly fishLoader: FishLoader,
    private readonly spawns: SpawnLoader,
  ) {}

  @ResolveField(() => VesselModel, { description: 'The vessel.' })
  async vessel(@Parent() stay: VesselStayModel, @Context() context: object): Promise<VesselModel> {
    const row = await this.vessels.byId.of(context).load(stay.vesselId);
    if (row === null) throw notFound('vessel', stay.vesselId);
    return toVessel(row);
  }

  @ResolveField(() => FishModel, { nullable: true, description: 'The fish; null for a spawn.' })
  async fish(
    @Parent() { fishId }: VesselStayModel,
    @Context() context: object,
  ): Promise<FishModel | null> {
    const row = fishId === null ? null : await this.fishLoader.byId.of(context).load(fishId);
    return row === null ? null : toFish(row);
  }

  @ResolveField(() => SpawnModel, { nullable: true, description: 'The spawn; null for a fish.' })
  async spawn(
    @Parent() { spawnId }: VesselStayModel,
    @Context() context: object,
  ): Promise<SpawnModel | null> {
    const row = spawnId === null ? null : await this.spawns.byId.of(context).load(spawnId);
    return row === null ? null : toSpawn(row);
  }
}
