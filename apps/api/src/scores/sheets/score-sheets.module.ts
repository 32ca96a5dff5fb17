import { Module } from '@nestjs/common';
import { AccountsModule } from '../../accounts/accounts.module.js';
import { changeOf } from '../../shapes/change.resolver.js';
import { scoringRecord, sheetRecord } from '../../stock/record-types.js';
import { StockModule } from '../../stock/stock.module.js';
import { ScoresModule } from '../scores.module.js';
import { ReliabilityResolver } from './reliability.resolver.js';
import { ReliabilityService } from './reliability.service.js';
import {
  FishScoringsResolver,
  SheetScoringPartsResolver,
  SheetScoringsResolver,
} from './sheet-scorings.resolver.js';
import { SheetScoringsService } from './sheet-scorings.service.js';
import { ScoreSheetModel, SheetScoringModel } from './sheet.model.js';
import { SheetLinesResolver, SheetsResolver } from './sheets.resolver.js';
import { SheetsService } from './sheets.service.js';

/** Score sheets, looks at fish on them, and how far scorers agree. */
@Module({
  imports: [AccountsModule, StockModule, ScoresModule],
  providers: [
    SheetsService,
    SheetScoringsService,
    SheetsResolver,
    SheetLinesResolver,
    SheetScoringsResolver,
    SheetScoringPartsResolver,
    FishScoringsResolver,
    ReliabilityService,
    ReliabilityResolver,
    changeOf(ScoreSheetModel, sheetRecord.target),
    changeOf(SheetScoringModel, scoringRecord.target),
  ],
})
export class ScoreSheetsModule {}
