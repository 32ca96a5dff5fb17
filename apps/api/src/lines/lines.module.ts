import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { LinesService } from './lines.service.js';
import { LinesResolver } from './lines.resolver.js';

/** Lines, the names that fish are bred under. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [LinesService, LinesResolver],
})
export class LinesModule {}
