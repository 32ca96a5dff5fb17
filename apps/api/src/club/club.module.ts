import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { LociModule } from '../loci/loci.module.js';
import { MeritModule } from '../merit/merit.module.js';
import { StockModule } from '../stock/stock.module.js';
import { ClubResolver } from './club.resolver.js';
import { ClubService } from './club.service.js';
import { ConsentService } from './consent.service.js';
import { PooledService } from './pooled.service.js';
import { RequestsResolver } from './requests.resolver.js';
import { RequestsService } from './requests.service.js';

/** What keepers on one server show each other. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, LociModule, MeritModule, JobsModule],
  providers: [
    ClubService,
    ConsentService,
    PooledService,
    RequestsService,
    ClubResolver,
    RequestsResolver,
  ],
})
export class ClubModule {}
