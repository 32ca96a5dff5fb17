import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { MovesService } from './moves.service.js';
import { ScannedService } from './scanned.service.js';
import { StaysResolver } from './stays.resolver.js';
import { VesselsResolver } from './vessels.resolver.js';
import { VesselsService } from './vessels.service.js';

/** Jars, tanks and tubs, and who is in them. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [VesselsService, MovesService, ScannedService, VesselsResolver, StaysResolver],
})
export class VesselsModule {}
