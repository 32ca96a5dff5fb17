import { Module } from '@nestjs/common';
import { KinshipModule } from '../kinship/kinship.module.js';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { InbreedingSourcesService } from './inbreeding-sources.service.js';
import { LineHealthService } from './line-health.service.js';
import { InbreedingSourcesResolver, PopulationResolver } from './population.resolver.js';
import { RelationshipMapService } from './relationship-map.service.js';
import { StockService } from './stock.service.js';

/** Figures about a stock: line health, relationship map, where an F comes from. Reads only. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, JobsModule],
  providers: [
    StockService,
    LineHealthService,
    RelationshipMapService,
    InbreedingSourcesService,
    PopulationResolver,
    InbreedingSourcesResolver,
  ],
})
export class PopulationModule {}
