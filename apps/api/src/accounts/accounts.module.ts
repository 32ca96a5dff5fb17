import { Module } from '@nestjs/common';
import { AccountsResolver } from './accounts.resolver.js';
import { AccountsService } from './accounts.service.js';
import { InvitationsService } from './invitations.service.js';
import { PeopleResolver } from './people.resolver.js';
import { StockModule } from '../stock/stock.module.js';
import { PasskeysService } from './passkeys.service.js';
import { ProgramTokens } from './program-tokens.service.js';
import { RefusedAttempts } from './refused-attempts.service.js';
import { SecondStepService } from './second-step.service.js';
import { SessionService } from './session.service.js';
import { WaysInResolver } from './ways-in.resolver.js';

@Module({
  imports: [StockModule],
  providers: [
    AccountsResolver,
    AccountsService,
    InvitationsService,
    PeopleResolver,
    PasskeysService,
    ProgramTokens,
    SecondStepService,
    SessionService,
    RefusedAttempts,
    WaysInResolver,
  ],
  exports: [AccountsService, InvitationsService, SessionService, RefusedAttempts],
})
export class AccountsModule {}
