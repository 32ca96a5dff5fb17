import { Module } from '@nestjs/common';
import { AccountsResolver } from './accounts.resolver.js';
import { AccountsService } from './accounts.service.js';
import { KeeperLoader } from '../stock/keeper.loader.js';
import { RefusedAttempts } from './refused-attempts.service.js';
import { SessionService } from './session.service.js';

@Module({
  providers: [AccountsResolver, AccountsService, SessionService, KeeperLoader, RefusedAttempts],
  exports: [AccountsService, SessionService, KeeperLoader, RefusedAttempts],
})
export class AccountsModule {}
