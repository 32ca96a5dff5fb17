import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { CarriersModule } from '../carriers/carriers.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { MeritModule } from '../merit/merit.module.js';
import { PairingModule } from '../pairing/pairing.module.js';
import { StockModule } from '../stock/stock.module.js';
import { HowManyService } from './how-many.service.js';
import { KeepingResolver } from './keeping.resolver.js';
import { KeepingService } from './keeping.service.js';
import { LineAllelesService } from './line-alleles.service.js';

/** Whom of a brood to keep. */
@Module({
  imports: [AccountsModule, StockModule, PairingModule, MeritModule, CarriersModule, JobsModule],
  providers: [KeepingService, KeepingResolver, HowManyService, LineAllelesService],
})
export class KeepingModule {}
