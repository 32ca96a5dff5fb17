import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { toSpawn } from '../shapes/spawn.mapper.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { VesselLoader } from '../stock/vessel.loader.js';
import { WaterPlaceModel, WaterReadingModel } from '../water/water.model.js';

const spawnOf = async (
  loader: SpawnLoader,
  spawnId: string | null,
  context: object,
): Promise<SpawnModel | null> => {
  const row = spawnId === null ? null : await loader.byId.of(context).load(spawnId);
  return row === null ? null : toSpawn(row);
};

@Resolver(() => WaterReadingModel)
export class WaterReadingFieldsResolver {
  constructor(
    private readonly loader: SpawnLoader,
    private readonly vessels: VesselLoader,
  ) {}

  @ResolveField(() => String, {
    nullable: true,
    description: 'Code of the vessel, when it is not that of a spawn.',
  })
  async vessel(
    @Parent() { vesselId, vessel }: WaterReadingModel,
    @Context() context: object,
  ): Promise<string | null> {
    const row = vesselId === null ? null : await this.vessels.byId.of(context).load(vesselId);
    return row?.code ?? vessel;
  }

  @ResolveField(() => SpawnModel, { nullable: true, description: 'The spawn whose water it is.' })
  spawn(
    @Parent() reading: WaterReadingModel,
    @Context() context: object,
  ): Promise<SpawnModel | null> {
    return spawnOf(this.loader, reading.spawnId, context);
  }
}

@Resolver(() => WaterPlaceModel)
export class WaterPlaceFieldsResolver {
  constructor(private readonly loader: SpawnLoader) {}

  @ResolveField(() => SpawnModel, { nullable: true, description: 'The spawn whose water it is.' })
  spawn(@Parent() place: WaterPlaceModel, @Context() context: object): Promise<SpawnModel | null> {
    return spawnOf(this.loader, place.spawnId, context);
  }
}
