import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { ExchangeController } from './exchange.controller.js';
import { ExchangeResolver } from './exchange.resolver.js';
import { ExchangeService } from './exchange.service.js';
import { ImportRunsService } from './import-runs.service.js';
import { PastImportsResolver } from './past-imports.resolver.js';
import { PastImportsService } from './past-imports.service.js';

@Module({
  imports: [AccountsModule, JobsModule],
  controllers: [ExchangeController],
  providers: [
    ExchangeService,
    ImportRunsService,
    ExchangeResolver,
    PastImportsService,
    PastImportsResolver,
  ],
  exports: [ExchangeService],
})
export class ExchangeModule {}
