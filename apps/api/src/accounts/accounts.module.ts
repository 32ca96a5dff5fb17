import { Module } from '@nestjs/common';
import { AccountsResolver } from './accounts.resolver.js';
import { AccountsService } from './accounts.service.js';
import { InvitationsService } from './invitations.service.js';
import { PeopleResolver } from './people.resolver.js';
import { StockModule } from '../stock/stock.module.js';
import { RefusedAttempts } from './refused-attempts.service.js';
import { SessionService } from './session.service.js';

@Module({
  imports: [StockModule],
  providers: [
    AccountsResolver,
    AccountsService,
    InvitationsService,
    PeopleResolver,
    SessionService,
    RefusedAttempts,
  ],
  exports: [AccountsService, SessionService, RefusedAttempts],
})
export class AccountsModule {}
