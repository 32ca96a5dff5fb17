import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { DifferencesService } from './differences.service.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { StockModule } from '../stock/stock.module.js';
import { ExchangeSchedule } from './exchange/exchange-schedule.js';
import { ExchangeService } from './exchange/exchange.service.js';
import { GivenFilesService } from './exchange/given-files.service.js';
import { GivingLinesService } from './exchange/giving-lines.service.js';
import { WhatCameService } from './exchange/what-came.service.js';
import { TakingLinesService } from './exchange/taking-lines.service.js';
import { LentLinesService } from './exchange/lent-lines.service.js';
import { LineExchangeResolver, PartnersResolver } from './exchange/partners.resolver.js';
import { PartnersService } from './partners/partners.service.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { ReceivedFiles } from './line-file/received-files.js';
import { SealedKeys } from './own-keys.js';
import { ShareController } from './share.controller.js';
import { ShareResolver } from './share.resolver.js';
import { ShareService } from './share.service.js';

@Module({
  imports: [AccountsModule, JobsModule, PhotoFilesModule, StockModule],
  controllers: [ShareController],
  providers: [
    SealedKeys,
    ...[ReceivedFiles, ShareService, DifferencesService, ShareResolver],
    ...[PartnersService, PartnersResolver, LineExchangeResolver],
    ...[LentLinesService, GivenFilesService, GivingLinesService, TakingLinesService],
    ...[ExchangeService, ExchangeSchedule, WhatCameService],
  ],
  exports: [ShareService, ExchangeService],
})
export class SharingModule {}
