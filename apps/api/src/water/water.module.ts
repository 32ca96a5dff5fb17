import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { WaterLoader } from './water.loader.js';
import { WaterResolver } from './water.resolver.js';
import { WaterRulesService } from './water-rules.service.js';
import { WaterService } from './water.service.js';
import { WaterViewService } from './water-view.service.js';

@Module({
  imports: [AccountsModule, StockModule],
  providers: [WaterService, WaterRulesService, WaterViewService, WaterLoader, WaterResolver],
  exports: [WaterLoader],
})
export class WaterModule {}
