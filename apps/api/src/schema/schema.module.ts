import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { LociModule } from '../loci/loci.module.js';
import { FishFieldsResolver } from './fish-fields.resolver.js';
import { HandOverRequestResolver, RequestHandOversResolver } from './request-fields.resolver.js';
import { parentNamesResolvers } from './parent-names.resolver.js';
import { SpawnFieldsResolver } from './spawn-fields.resolver.js';
import { FishVesselResolver, SpawnVesselResolver } from './vessel-fields.resolver.js';
import { WaterPlaceFieldsResolver, WaterReadingFieldsResolver } from './water-fields.resolver.js';
import { FishModel } from '../shapes/fish.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { WaterReadingModel } from '../water/water.model.js';
import { historyOf } from './history-of.js';
import { WaterModule } from '../water/water.module.js';

/** Fields that join features. */
@Module({
  imports: [StockModule, KinshipModule, LociModule, WaterModule],
  providers: [
    ...[FishModel, SpawnModel, WaterReadingModel].map(historyOf),
    FishFieldsResolver,
    SpawnFieldsResolver,
    ...parentNamesResolvers,
    HandOverRequestResolver,
    RequestHandOversResolver,
    WaterPlaceFieldsResolver,
    WaterReadingFieldsResolver,
    FishVesselResolver,
    SpawnVesselResolver,
  ],
})
export class SchemaModule {}
