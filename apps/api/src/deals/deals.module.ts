import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { DealsResolver } from './deals.resolver.js';
import { DealsService } from './deals.service.js';

/** What was paid, asked and got for fish. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [DealsService, DealsResolver],
})
export class DealsModule {}
