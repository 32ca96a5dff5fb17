import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { PairingModule } from '../pairing/pairing.module.js';
import { StockModule } from '../stock/stock.module.js';
import { LessonsResolver } from './lessons.resolver.js';
import { LessonsService } from './lessons.service.js';
import { ProposalResolver } from './proposal.resolver.js';
import { ProposalService } from './proposal.service.js';
import { RoundsResolver } from './rounds.resolver.js';
import { RoundsService } from './rounds.service.js';

/** The pairs to make now for a line, and rounds that were adopted. */
@Module({
  imports: [AccountsModule, StockModule, PairingModule, JobsModule],
  providers: [
    RoundsService,
    RoundsResolver,
    ProposalService,
    ProposalResolver,
    LessonsService,
    LessonsResolver,
  ],
})
export class RoundsModule {}
