import { Args, Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import type { RequestContext, SignedInPerson } from '../graphql/request-context.js';
import { AccountsService } from './accounts.service.js';
import { CurrentAccount, ForAnyAccount, WithoutSession } from './session.guard.js';
import { PersonModel, SessionModel, SetUpInput } from './session.model.js';

@Resolver(() => SessionModel)
export class AccountsResolver {
  constructor(private readonly accounts: AccountsService) {}

  @WithoutSession()
  @Query(() => SessionModel, { description: 'Where this browser stands. Needs no session.' })
  session(@Context() { req }: RequestContext): Promise<SessionModel> {
    return this.accounts.session(req);
  }

  @Query(() => [PersonModel], {
    description: 'The owner of this install and the partners met through shared lines.',
  })
  people(): Promise<PersonModel[]> {
    return this.accounts.people();
  }

  @WithoutSession()
  @Mutation(() => SessionModel, {
    description: 'First start: names the owner, sets the password and signs in.',
  })
  async setUp(
    @Context() { req, res }: RequestContext,
    @Args('input', { description: 'Name and password.' }) input: SetUpInput,
  ): Promise<SessionModel> {
    await this.accounts.setUp(req, res, input);
    return this.accounts.session(req);
  }

  @WithoutSession()
  @Mutation(() => SessionModel, { description: 'Signs somebody in.' })
  async signIn(
    @Context() { req, res }: RequestContext,
    @Args('password', { type: () => String, description: 'Their password.' })
    password: string,
    @Args('name', {
      type: () => String,
      nullable: true,
      description: 'The name they sign in with; the owner may give none.',
    })
    name?: string | null,
    @Args('code', {
      type: () => String,
      nullable: true,
      description:
        'The code that their phone shows, or a spare one; asked for (CODE_NEEDED) where a second step is set up.',
    })
    code?: string | null,
  ): Promise<SessionModel> {
    await this.accounts.signIn(req, res, { password, name: name ?? '', code: code ?? null });
    return this.accounts.session(req);
  }

  @ForAnyAccount()
  @Mutation(() => SessionModel, {
    description: 'Ends this session on the server and in the browser.',
  })
  async signOut(@Context() { req, res }: RequestContext): Promise<SessionModel> {
    await this.accounts.signOut(req, res);
    return this.accounts.session(req);
  }

  @WithoutSession()
  @Mutation(() => SessionModel, {
    description: 'Opens the demo, on the machine the server runs on.',
  })
  async openDemo(@Context() { req, res }: RequestContext): Promise<SessionModel> {
    await this.accounts.openDemo(req, res);
    return this.accounts.session(req);
  }

  @ForAnyAccount()
  @Mutation(() => SessionModel, {
    description:
      'Sets or changes the password of whoever is signed in, and ends every other session.',
  })
  async setPassword(
    @Context() { req }: RequestContext,
    @CurrentAccount() person: SignedInPerson,
    @Args('password', { type: () => String, description: 'At least 10 characters.' })
    password: string,
    @Args('current', {
      type: () => String,
      nullable: true,
      description: 'The current password; needed when there is one.',
    })
    current?: string | null,
  ): Promise<SessionModel> {
    await this.accounts.changePassword(req, person.id, password, current ?? null);
    return this.accounts.session(req);
  }
}
