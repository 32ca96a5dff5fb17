import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { CommentsResolver } from './comments.resolver.js';
import { CommentsService } from './comments.service.js';

/** Comments on fish and spawns. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [CommentsService, CommentsResolver],
})
export class CommentsModule {}
