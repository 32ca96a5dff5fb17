import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { LociModule } from '../loci/loci.module.js';
import { FishFieldsResolver } from './fish-fields.resolver.js';
import { SpawnFieldsResolver } from './spawn-fields.resolver.js';
import { WaterPlaceFieldsResolver, WaterReadingFieldsResolver } from './water-fields.resolver.js';
import { WaterModule } from '../water/water.module.js';

/** Fields that join features. */
@Module({
  imports: [StockModule, KinshipModule, LociModule, WaterModule],
  providers: [
    FishFieldsResolver,
    SpawnFieldsResolver,
    WaterPlaceFieldsResolver,
    WaterReadingFieldsResolver,
  ],
})
export class SchemaModule {}
