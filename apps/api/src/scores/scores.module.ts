import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { ScoresResolver } from './scores.resolver.js';
import { ScoresService } from './scores.service.js';
import { TraitsService } from './traits.service.js';

/** Traits and the scores given for them. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [TraitsService, ScoresService, ScoresResolver],
  exports: [ScoresService],
})
export class ScoresModule {}
