import { Args, Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import { AccountsService } from '../accounts/accounts.service.js';
import { CurrentAccount, ForAnyAccount } from '../accounts/session.guard.js';
import { SessionModel } from '../accounts/session.model.js';
import { SessionService } from '../accounts/session.service.js';
import type { RequestContext, SignedInPerson } from '../graphql/request-context.js';
import { EraseOwnDataInput, OwnDataModel } from './own-data.model.js';
import { OwnDataService } from './own-data.service.js';

@Resolver(() => OwnDataModel)
export class OwnDataResolver {
  constructor(
    private readonly own: OwnDataService,
    private readonly accounts: AccountsService,
    private readonly sessions: SessionService,
  ) {}

  @ForAnyAccount()
  @Query(() => OwnDataModel, {
    description:
      'What is recorded of whoever asks, and what would become of it if it were erased. The whole of it: GET /export/own-data.zip.',
  })
  ownData(@CurrentAccount() account: SignedInPerson): Promise<OwnDataModel> {
    return this.own.told(account);
  }

  @ForAnyAccount()
  @Mutation(() => SessionModel, {
    description:
      'Erases whoever asks: account, name, notes, places and photos go; of their fish and spawns stays what the pedigree of others rests on, under a pseudonym. Signs out.',
  })
  async eraseOwnData(
    @Context() { req, res }: RequestContext,
    @CurrentAccount() account: SignedInPerson,
    @Args('password', {
      type: () => String,
      description: 'Your password: whoever finds an open browser does not know it.',
    })
    password: string,
    @Args('input', { description: 'What is to be erased.' }) input: EraseOwnDataInput,
  ): Promise<SessionModel> {
    await this.sessions.verifyPassword(req, account.id, password);
    await this.own.erase(account, input);
    await this.accounts.signOut(req, res);
    return this.accounts.session(req);
  }
}
