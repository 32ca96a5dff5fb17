import { Args, Context, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import type { RequestContext, SignedInPerson } from '../graphql/request-context.js';
import {
  AcceptInvitationInput,
  AccountModel,
  InvitationModel,
  InvitePersonInput,
  NewInvitationModel,
  OpenSessionModel,
} from './account.model.js';
import { AccountsService } from './accounts.service.js';
import { InvitationsService } from './invitations.service.js';
import { CurrentAccount, ForAnyAccount, ForOwner, WithoutSession } from './session.guard.js';
import { SessionModel } from './session.model.js';
import { SessionService } from './session.service.js';

@Resolver(() => AccountModel)
export class PeopleResolver {
  constructor(
    private readonly invitations: InvitationsService,
    private readonly sessions: SessionService,
    private readonly accountsService: AccountsService,
  ) {}

  @ForOwner()
  @Query(() => [AccountModel], {
    description: 'Who may sign in here or was invited to, the owner first.',
  })
  accounts(): Promise<AccountModel[]> {
    return this.invitations.accounts();
  }

  @ForOwner()
  @Mutation(() => NewInvitationModel, {
    description: 'Makes an account and a link of one use, by which its person comes in.',
  })
  invitePerson(
    @Args('input', { description: 'Who, and as what.' }) input: InvitePersonInput,
  ): Promise<NewInvitationModel> {
    return this.invitations.invite(input);
  }

  @ForOwner()
  @Mutation(() => NewInvitationModel, {
    description:
      'Makes a new link for an account: for an invitation that ended, or a password that was lost. The link before it ends.',
  })
  renewInvitation(
    @Args('personId', { type: () => ID, description: 'Whose account.' }) personId: string,
  ): Promise<NewInvitationModel> {
    return this.invitations.renew(personId);
  }

  @ForOwner()
  @Mutation(() => [AccountModel], {
    description:
      'Takes an account away, with its links and sessions. The person stays in the records.',
  })
  async endAccount(
    @Args('personId', { type: () => ID, description: 'Whose account.' }) personId: string,
  ): Promise<AccountModel[]> {
    await this.invitations.end(personId);
    return this.invitations.accounts();
  }

  @WithoutSession()
  @Query(() => InvitationModel, { description: 'What a link invites to. Needs no session.' })
  invitation(
    @Args('token', { type: () => String, description: 'The token of the link.' }) token: string,
  ): Promise<InvitationModel> {
    return this.invitations.opened(token);
  }

  @WithoutSession()
  @Mutation(() => SessionModel, {
    description: 'Sets the password of whoever was invited, ends the link and signs in.',
  })
  async acceptInvitation(
    @Context() { req, res }: RequestContext,
    @Args('input', { description: 'The link and the password.' }) input: AcceptInvitationInput,
  ): Promise<SessionModel> {
    await this.invitations.accept(req, res, input);
    return this.accountsService.session(req);
  }

  @ForAnyAccount()
  @Query(() => [OpenSessionModel], {
    description: 'Browsers in which whoever asks is signed in, the one that asks first.',
  })
  openSessions(
    @Context() { req }: RequestContext,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<OpenSessionModel[]> {
    return this.sessions.openOf(req, account.id);
  }

  @ForAnyAccount()
  @Mutation(() => [OpenSessionModel], {
    description: 'Signs one browser out; answers those that are left.',
  })
  async endSession(
    @Context() { req }: RequestContext,
    @CurrentAccount() account: SignedInPerson,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
  ): Promise<OpenSessionModel[]> {
    await this.sessions.end(account.id, id);
    return this.sessions.openOf(req, account.id);
  }
}
