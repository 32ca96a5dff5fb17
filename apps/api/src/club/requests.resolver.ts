import {
  Args,
  Context,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentAccount } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { PersonLoader } from '../stock/person.loader.js';
import { toRequest } from './requests.mapper.js';
import {
  AnswerClubRequestInput,
  AskClubInput,
  ClubRequestConnectionModel,
  ClubRequestModel,
} from './requests.model.js';
import { RequestsService } from './requests.service.js';

@Resolver(() => ClubRequestModel)
export class RequestsResolver {
  constructor(
    private readonly requests: RequestsService,
    private readonly people: PersonLoader,
  ) {}

  @Query(() => ClubRequestConnectionModel, {
    description: 'Requests that you made or got, the newest first, a page at a time.',
  })
  async clubRequests(
    @Args('openAlone', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Only those that wait for an answer.',
    })
    openAlone: boolean,
    @First() first: number,
    @After() after: string | null,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubRequestConnectionModel> {
    const page = await this.requests.page(openAlone, first, after ?? undefined);
    return mapPage(page, (row) => toRequest(row, account));
  }

  @Mutation(() => ClubRequestModel, {
    description: 'Asks whoever shows a line for a fish, a loan or a stud.',
  })
  async askClub(
    @Args('input', { description: 'What is asked for.' }) input: AskClubInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubRequestModel> {
    return toRequest(await this.requests.ask(input, account), account);
  }

  @Mutation(() => ClubRequestModel, { description: 'Answers a request that you got.' })
  async answerClubRequest(
    @Args('input', { description: 'The answer.' }) input: AnswerClubRequestInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubRequestModel> {
    return toRequest(await this.requests.answer(input, account), account);
  }

  @Mutation(() => ClubRequestModel, { description: 'Withdraws a request that you made.' })
  async withdrawClubRequest(
    @Args('requestId', { type: () => ID, description: 'The request.' }) requestId: string,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubRequestModel> {
    return toRequest(await this.requests.withdraw(requestId, account), account);
  }

  @ResolveField(() => PersonModel, { description: 'Who asks.' })
  from(@Parent() request: ClubRequestModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(request.fromId, context);
  }

  @ResolveField(() => PersonModel, { description: 'Who is asked.' })
  to(@Parent() request: ClubRequestModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(request.toId, context);
  }
}
