import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { ShowsResolver } from './shows.resolver.js';
import { ShowsService } from './shows.service.js';

/** Results of shows. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [ShowsService, ShowsResolver],
})
export class ShowsModule {}
