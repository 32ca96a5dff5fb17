import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { SavedSearches } from './saved-searches.service.js';
import { SavedSearchesResolver } from './saved-searches.resolver.js';
import { SearchResolver } from './search.resolver.js';
import { SearchService } from './search.service.js';

/** One text looked for in all records. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [SearchService, SearchResolver, SavedSearches, SavedSearchesResolver],
})
export class SearchModule {}
