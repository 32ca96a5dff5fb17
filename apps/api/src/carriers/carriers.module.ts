import { Module } from '@nestjs/common';
import { SpawnsModule } from '../spawns/spawns.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { LociModule } from '../loci/loci.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { CarriersResolver } from './carriers.resolver.js';
import { CarriersService } from './carriers.service.js';
import { BroodOutlookService } from './brood-outlook.service.js';
import { ContradictionsService } from './contradictions.service.js';
import { OutlookResolver } from './outlook.resolver.js';
import { PairOutlookService } from './pair-outlook.service.js';
import { TestMatingsService } from './test-matings.service.js';
import { EvidenceService } from './evidence.service.js';
import { PosteriorsService } from './posteriors.service.js';
import { RecordLinks } from './record-links.js';
import { WhoCarriesResolver } from './who-carries.resolver.js';
import { WhoCarriesService } from './who-carries.service.js';
import { TaskRunner } from './task-runner.js';

/** What fish are likely to carry, worked out from the records of the whole stock. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, LociModule, SpawnsModule, JobsModule],
  providers: [
    EvidenceService,
    PosteriorsService,
    TaskRunner,
    CarriersService,
    CarriersResolver,
    WhoCarriesService,
    WhoCarriesResolver,
    RecordLinks,
    PairOutlookService,
    BroodOutlookService,
    ContradictionsService,
    TestMatingsService,
    OutlookResolver,
  ],
  exports: [EvidenceService, PosteriorsService],
})
export class CarriersModule {}
