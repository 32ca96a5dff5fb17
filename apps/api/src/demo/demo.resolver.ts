import { Args, Context, Mutation, Resolver } from '@nestjs/graphql';
import { AccountsService } from '../accounts/accounts.service.js';
import { ForOwner, WithoutSession } from '../accounts/session.guard.js';
import { SessionModel } from '../accounts/session.model.js';
import { fieldError } from '../errors/request-error.js';
import type { RequestContext } from '../graphql/request-context.js';
import { DemoService } from './demo.service.js';

@Resolver(() => SessionModel)
export class DemoResolver {
  constructor(
    private readonly demo: DemoService,
    private readonly accounts: AccountsService,
  ) {}

  @WithoutSession()
  @Mutation(() => SessionModel, {
    description:
      'Loads the demo scenario into an empty database and opens it, on the machine the server runs on.',
  })
  async loadDemo(@Context() { req, res }: RequestContext): Promise<SessionModel> {
    this.accounts.expectLoopback(req);
    await this.demo.load();
    await this.accounts.openDemo(req, res);
    return this.accounts.session(req);
  }

  @ForOwner()
  @Mutation(() => SessionModel, {
    description:
      'Clears the demo scenario with everything recorded in it, so that your own records can begin.',
  })
  async clearDemo(
    @Context() { req, res }: RequestContext,
    @Args('confirm', { type: () => String, description: 'The words "clear the demo".' })
    confirm: string,
  ): Promise<SessionModel> {
    if (confirm !== 'clear the demo') {
      throw fieldError({
        field: 'confirm',
        message: `"${confirm}" does not confirm it: give the words "clear the demo".`,
      });
    }
    await this.demo.clear();
    await this.accounts.signOut(req, res);
    return this.accounts.session(req);
  }
}
