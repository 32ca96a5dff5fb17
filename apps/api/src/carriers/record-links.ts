import { Injectable } from '@nestjs/common';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import type { FishModel } from '../shapes/fish.model.js';
import { hiddenParent } from '../kinship/hidden-parents.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { toSpawn } from '../shapes/spawn.mapper.js';
import type { SpawnModel } from '../shapes/spawn.model.js';

/** The fish and spawns that records point at, loaded in batches. */
@Injectable()
export class RecordLinks {
  constructor(
    private readonly fishLoader: FishLoader,
    private readonly spawnLoader: SpawnLoader,
  ) {}

  async fish(id: string | null | undefined, context: object): Promise<FishModel | null> {
    const row =
      id == null || hiddenParent(id) !== null
        ? null
        : await this.fishLoader.byId.of(context).load(id);
    return row === null ? null : toFish(row);
  }

  async spawn(id: string | null | undefined, context: object): Promise<SpawnModel | null> {
    const row = id == null ? null : await this.spawnLoader.byId.of(context).load(id);
    return row === null ? null : toSpawn(row);
  }
}
