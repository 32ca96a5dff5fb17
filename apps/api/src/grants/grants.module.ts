import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { GrantsResolver } from './grants.resolver.js';
import { GrantsService } from './grants.service.js';
import { rightsResolvers } from './rights.resolver.js';

/** What partners may see and do of each line. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [GrantsService, GrantsResolver, ...rightsResolvers],
})
export class GrantsModule {}
