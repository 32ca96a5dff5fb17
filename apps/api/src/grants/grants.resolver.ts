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
import { CurrentAccount, ForAnyAccount, ForWhoseLine } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toLine } from '../shapes/line.mapper.js';
import { LineModel } from '../shapes/line.model.js';
import { LineLoader } from '../stock/line.loader.js';
import { PersonLoader } from '../stock/person.loader.js';
import { GrantLineInput, LineGrantModel } from './grant.model.js';
import { GrantsService } from './grants.service.js';

@Resolver(() => LineGrantModel)
export class GrantsResolver {
  constructor(
    private readonly grants: GrantsService,
    private readonly lines: LineLoader,
    private readonly people: PersonLoader,
  ) {}

  @ForAnyAccount()
  @Query(() => [LineGrantModel], {
    description:
      'What partners may see and do of a line, or of every line; a partner is told their own alone.',
  })
  lineGrants(
    @Args('lineId', { type: () => ID, nullable: true, description: 'Of this line alone.' })
    lineId?: string | null,
  ): Promise<LineGrantModel[]> {
    return this.grants.list(lineId ?? null);
  }

  @ForWhoseLine()
  @Mutation(() => [LineGrantModel], {
    description:
      'Grants a line to a partner, or changes what was granted; answers all of the line.',
  })
  grantLine(
    @Args('input', { description: 'What they shall see and do.' }) input: GrantLineInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<LineGrantModel[]> {
    return this.grants.grant(input, account);
  }

  @ForWhoseLine()
  @Mutation(() => [LineGrantModel], {
    description: 'Takes a line back from a partner, at once; answers what is left of the line.',
  })
  endLineGrant(
    @Args('personId', { type: () => ID, description: 'The partner.' }) personId: string,
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
  ): Promise<LineGrantModel[]> {
    return this.grants.end(personId, lineId);
  }

  @ResolveField(() => PersonModel, { description: 'The partner.' })
  person(@Parent() grant: LineGrantModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(grant.accountId, context);
  }

  @ResolveField(() => LineModel, { description: 'The line.' })
  async line(@Parent() grant: LineGrantModel, @Context() context: object): Promise<LineModel> {
    const row = await this.lines.byId.of(context).load(grant.lineId);
    if (row === null) throw notFound('line', grant.lineId);
    return toLine(row);
  }
}
