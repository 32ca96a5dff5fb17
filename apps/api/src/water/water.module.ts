import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { WaterResolver } from './water.resolver.js';
import { WaterRulesService } from './water-rules.service.js';
import { WaterService } from './water.service.js';
import { WaterViewService } from './water-view.service.js';

@Module({
  imports: [AccountsModule, StockModule],
  providers: [WaterService, WaterRulesService, WaterViewService, WaterResolver],
})
export class WaterModule {}
