import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { ClaimsResolver } from './claims.resolver.js';
import { ClaimsService } from './claims.service.js';
import { AnswersService } from './answers.service.js';
import {
  FishHandOversResolver,
  HandOverFieldsResolver,
  HandOversResolver,
} from './hand-overs.resolver.js';
import { LoansService } from './loans.service.js';
import { OffersService } from './offers.service.js';

/** Fish from one person to another. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [
    OffersService,
    AnswersService,
    LoansService,
    ClaimsService,
    ClaimsResolver,
    HandOversResolver,
    HandOverFieldsResolver,
    FishHandOversResolver,
  ],
})
export class HandOverModule {}
