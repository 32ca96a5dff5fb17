import { Module } from '@nestjs/common';
import { SpawnsModule } from '../spawns/spawns.module.js';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { CalendarAddressService } from './calendar-address.service.js';
import { CalendarController } from './calendar.controller.js';
import { CarePlansService } from './care-plans.service.js';
import { CareTemplatesService } from './care-templates.service.js';
import { CareResolver, SpawnCareResolver } from './care.resolver.js';
import { CareService } from './care.service.js';

/** The spawn log and the care calendar. */
@Module({
  imports: [AccountsModule, StockModule, SpawnsModule],
  controllers: [CalendarController],
  providers: [
    CarePlansService,
    CareService,
    CareTemplatesService,
    CalendarAddressService,
    CareResolver,
    SpawnCareResolver,
  ],
})
export class CareModule {}
