import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { LociModule } from '../loci/loci.module.js';
import { StockModule } from '../stock/stock.module.js';
import { LinePurposeResolver, TraitAimsResolver } from './line-purpose.resolver.js';
import { LinePurposeService } from './line-purpose.service.js';

/** What each line is for. */
@Module({
  imports: [AccountsModule, StockModule, LociModule],
  providers: [LinePurposeService, LinePurposeResolver, TraitAimsResolver],
})
export class LinePurposeModule {}
