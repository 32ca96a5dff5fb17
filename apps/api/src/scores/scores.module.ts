import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { MarkingsResolver } from './markings.resolver.js';
import { MarkingsService } from './markings.service.js';
import { ScoresResolver } from './scores.resolver.js';
import { ScoresService } from './scores.service.js';
import { TraitsService } from './traits.service.js';

/** Traits and the scores given for them. */
@Module({
  imports: [AccountsModule, StockModule, PhotoFilesModule],
  providers: [TraitsService, ScoresService, ScoresResolver, MarkingsService, MarkingsResolver],
  exports: [ScoresService],
})
export class ScoresModule {}
