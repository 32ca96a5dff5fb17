import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { HistoryModule } from '../history/history.module.js';
import { WaterPlaceFieldsResolver, WaterReadingFieldsResolver } from '../schema/water-fields.resolver.js';
import { WaterLoader } from './water.loader.js';
import { WaterResolver } from './water.resolver.js';
import { WaterRulesService } from './water-rules.service.js';
import { WaterService } from './water.service.js';
import { WaterViewService } from './water-view.service.js';

@Module({
  imports: [AccountsModule, HistoryModule],
  providers: [
    WaterService,
    WaterRulesService,
    WaterViewService,
    WaterLoader,
    WaterResolver,
    WaterReadingFieldsResolver,
    WaterPlaceFieldsResolver,
  ],
  exports: [WaterService],
})
export class WaterModule {}
