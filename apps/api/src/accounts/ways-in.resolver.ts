import { Args, Context, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import type { RequestContext, SignedInPerson } from '../graphql/request-context.js';
import { AccountsService } from './accounts.service.js';
import { PasskeysService } from './passkeys.service.js';
import { ProgramTokens } from './program-tokens.service.js';
import { SecondStepService } from './second-step.service.js';
import { CurrentAccount, ForAnyAccount, WithoutSession } from './session.guard.js';
import { SessionModel } from './session.model.js';
import { SessionService } from './session.service.js';
import {
  MakeTokenInput,
  NewProgramTokenModel,
  PasskeyAnswerInput,
  PasskeyOfferModel,
  SecondStepOfferModel,
  WaysInModel,
} from './ways-in.model.js';

const Password = (): ParameterDecorator =>
  Args('password', {
    type: () => String,
    description: 'Your password: whoever finds an open browser does not know it.',
  });

@Resolver(() => WaysInModel)
export class WaysInResolver {
  constructor(
    private readonly accounts: AccountsService,
    private readonly sessions: SessionService,
    private readonly secondStep: SecondStepService,
    private readonly passkeys: PasskeysService,
    private readonly tokens: ProgramTokens,
  ) {}

  @ForAnyAccount()
  @Query(() => WaysInModel, { description: 'By what whoever asks may sign in beside a password.' })
  async waysIn(@CurrentAccount() { id }: SignedInPerson): Promise<WaysInModel> {
    const [secondStep, passkeys, tokens] = await Promise.all([
      this.secondStep.of(id),
      this.passkeys.of(id),
      this.tokens.of(id),
    ]);
    return { secondStep, passkeys, tokens };
  }

  @ForAnyAccount()
  @Mutation(() => SecondStepOfferModel, {
    description: 'A secret for a phone; codes are asked for once one of them was confirmed.',
  })
  async offerSecondStep(
    @Context() { req }: RequestContext,
    @CurrentAccount() { id, name }: SignedInPerson,
    @Password() password: string,
  ): Promise<SecondStepOfferModel> {
    await this.sessions.verifyPassword(req, id, password);
    return this.secondStep.offer(id, name);
  }

  @ForAnyAccount()
  @Mutation(() => [String], {
    description: 'From now on a code is asked for. Answers spare codes, told only now.',
  })
  confirmSecondStep(
    @CurrentAccount() { id }: SignedInPerson,
    @Args('code', { type: () => String, description: 'Six digits that the phone shows.' })
    code: string,
  ): Promise<string[]> {
    return this.secondStep.confirm(id, code);
  }

  @ForAnyAccount()
  @Mutation(() => [String], { description: 'New spare codes, told only now; those before end.' })
  async renewSpareCodes(
    @Context() { req }: RequestContext,
    @CurrentAccount() { id }: SignedInPerson,
    @Password() password: string,
  ): Promise<string[]> {
    await this.sessions.verifyPassword(req, id, password);
    return this.secondStep.renewSpareCodes(id);
  }

  @ForAnyAccount()
  @Mutation(() => WaysInModel, { description: 'No code is asked for any more.' })
  async endSecondStep(
    @Context() { req }: RequestContext,
    @CurrentAccount() account: SignedInPerson,
    @Password() password: string,
    @Args('code', { type: () => String, description: 'A code of the phone, or a spare one.' })
    code: string,
  ): Promise<WaysInModel> {
    await this.sessions.verifyPassword(req, account.id, password);
    await this.secondStep.end(account.id, code);
    return this.waysIn(account);
  }

  @ForAnyAccount()
  @Mutation(() => PasskeyOfferModel, {
    description: 'What a device is asked to make a passkey for.',
  })
  async offerPasskey(
    @Context() { req }: RequestContext,
    @CurrentAccount() account: SignedInPerson,
    @Password() password: string,
  ): Promise<PasskeyOfferModel> {
    await this.sessions.verifyPassword(req, account.id, password);
    return this.passkeys.offer(req, account);
  }

  @ForAnyAccount()
  @Mutation(() => WaysInModel, { description: 'Keeps the passkey that a device made.' })
  async addPasskey(
    @Context() { req }: RequestContext,
    @CurrentAccount() account: SignedInPerson,
    @Args('name', { type: () => String, description: 'How you call the device.' }) name: string,
    @Args('input', { description: 'What the device answered.' }) input: PasskeyAnswerInput,
  ): Promise<WaysInModel> {
    await this.passkeys.add(req, account.id, name, input);
    return this.waysIn(account);
  }

  @ForAnyAccount()
  @Mutation(() => WaysInModel, { description: 'A passkey signs in no more.' })
  async removePasskey(
    @CurrentAccount() account: SignedInPerson,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
  ): Promise<WaysInModel> {
    await this.passkeys.remove(account.id, id);
    return this.waysIn(account);
  }

  @WithoutSession()
  @Mutation(() => PasskeyOfferModel, {
    description: 'What a passkey is asked to sign in. Needs no session.',
  })
  askPasskey(@Context() { req }: RequestContext): Promise<PasskeyOfferModel> {
    return this.passkeys.ask(req);
  }

  @WithoutSession()
  @Mutation(() => SessionModel, { description: 'Signs in whose passkey answered.' })
  async signInWithPasskey(
    @Context() { req, res }: RequestContext,
    @Args('input', { description: 'What the device answered.' }) input: PasskeyAnswerInput,
  ): Promise<SessionModel> {
    await this.passkeys.signIn(req, res, input);
    return this.accounts.session(req);
  }

  @ForAnyAccount()
  @Mutation(() => NewProgramTokenModel, {
    description: 'Makes a token by which a program asks in your name. It is told only now.',
  })
  async makeToken(
    @Context() { req }: RequestContext,
    @CurrentAccount() { id }: SignedInPerson,
    @Password() password: string,
    @Args('input', { description: 'For what, and for how long.' }) input: MakeTokenInput,
  ): Promise<NewProgramTokenModel> {
    await this.sessions.verifyPassword(req, id, password);
    return this.tokens.make(id, input);
  }

  @ForAnyAccount()
  @Mutation(() => WaysInModel, { description: 'A token opens no more.' })
  async endToken(
    @CurrentAccount() account: SignedInPerson,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
  ): Promise<WaysInModel> {
    await this.tokens.end(account.id, id);
    return this.waysIn(account);
  }
}
