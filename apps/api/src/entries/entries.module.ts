import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { EntriesResolver } from './entries.resolver.js';
import { EntriesService } from './entries.service.js';

/** Entries made on a person's device: applied once, and taken back on request. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [EntriesService, EntriesResolver],
})
export class EntriesModule {}
