import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { StockModule } from '../stock/stock.module.js';
import { FishMeritResolver } from './fish-merit.resolver.js';
import { FishMeritService } from './fish-merit.service.js';
import { LastSolutionService } from './last-solution.service.js';
import { PooledMeritService } from './pooled-merit.service.js';
import { LineLoadService } from './line-load.service.js';
import { LineMeritResolver } from './line-merit.resolver.js';
import { ScoringDrawsResolver } from './scoring-draws.resolver.js';
import { ScoringDrawsService } from './scoring-draws.service.js';
import { TraitLoadService } from './trait-load.service.js';
import { TraitBeliefsService } from './trait-beliefs.service.js';
import { TraitMeritResolver } from './trait-merit.resolver.js';
import { TraitMeritService } from './trait-merit.service.js';
import { TraitModelsService } from './trait-models.service.js';
import { TraitRecordsService } from './trait-records.service.js';
import { TraitsTogetherResolver } from './traits-together.resolver.js';
import { TraitsTogetherService } from './traits-together.service.js';
import { TraitTrendService } from './trait-trend.service.js';

/** What fish pass on: breeding values, heritability, whether a line moves, what inbreeding costs. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, JobsModule],
  providers: [
    TraitModelsService,
    LastSolutionService,
    TraitBeliefsService,
    TraitRecordsService,
    TraitMeritService,
    TraitTrendService,
    TraitsTogetherService,
    FishMeritService,
    LineLoadService,
    TraitLoadService,
    PooledMeritService,
    ScoringDrawsService,
    TraitMeritResolver,
    FishMeritResolver,
    LineMeritResolver,
    ScoringDrawsResolver,
    TraitsTogetherResolver,
  ],
  exports: [TraitMeritService, LineLoadService, TraitBeliefsService, PooledMeritService],
})
export class MeritModule {}
