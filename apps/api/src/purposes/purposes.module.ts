import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { LociModule } from '../loci/loci.module.js';
import { StockModule } from '../stock/stock.module.js';
import { PurposesResolver, TraitAimsResolver } from './purposes.resolver.js';
import { PurposesService } from './purposes.service.js';

/** What each line is for. */
@Module({
  imports: [AccountsModule, StockModule, LociModule],
  providers: [PurposesService, PurposesResolver, TraitAimsResolver],
})
export class PurposesModule {}
