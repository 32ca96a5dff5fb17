import { Module } from '@nestjs/common';
import { AccountsResolver } from './accounts.resolver.js';
import { AccountsService } from './accounts.service.js';
import { KeeperLoader } from './keeper.loader.js';
import { SessionService } from './session.service.js';

@Module({
  providers: [AccountsResolver, AccountsService, SessionService, KeeperLoader],
  exports: [AccountsService, SessionService, KeeperLoader],
})
export class AccountsModule {}
