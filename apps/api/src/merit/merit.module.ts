import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { StockModule } from '../stock/stock.module.js';
import { TraitMeritResolver } from './trait-merit.resolver.js';
import { TraitMeritService } from './trait-merit.service.js';
import { TraitModelsService } from './trait-models.service.js';
import { TraitRecordsService } from './trait-records.service.js';

/** What fish pass on: breeding values, heritability, whether a line moves, what inbreeding costs. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, JobsModule],
  providers: [TraitModelsService, TraitRecordsService, TraitMeritService, TraitMeritResolver],
})
export class MeritModule {}
