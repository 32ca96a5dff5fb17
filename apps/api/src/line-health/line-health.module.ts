import { Module } from '@nestjs/common';
import { KinshipModule } from '../kinship/kinship.module.js';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { LineHealthService } from './line-health.service.js';
import { LineHealthResolver } from './line-health.resolver.js';

/** Figures about a line. Reads only. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, JobsModule],
  providers: [LineHealthService, LineHealthResolver],
})
export class LineHealthModule {}
