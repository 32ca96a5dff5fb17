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
import { toClaim } from './claim.mapper.js';
import { ClaimFishInput, FishClaimConnectionModel, FishClaimModel } from './claim.model.js';
import { ClaimsService } from './claims.service.js';

const WHICH = { type: () => ID, description: 'The claim.' } as const;

/** "This fish is mine": claimed, and confirmed by whoever recorded its tag. */
@Resolver(() => FishClaimModel)
export class ClaimsResolver {
  constructor(
    private readonly claims: ClaimsService,
    private readonly people: PersonLoader,
  ) {}

  @Query(() => FishClaimConnectionModel, {
    description: 'Claims of fish by or to whoever asks, the latest first.',
  })
  async fishClaims(
    @CurrentAccount() account: SignedInPerson,
    @First() first: number,
    @After() after: string | null,
    @Args('open', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Those alone that wait for an answer.',
    })
    open: boolean,
  ): Promise<FishClaimConnectionModel> {
    const page = await this.claims.list(account, open, { first, after });
    return mapPage(page, (row) => toClaim(row, account.keepsFor));
  }

  @Mutation(() => FishClaimModel, {
    description:
      'Claims a fish of which somebody else recorded only the tag; they confirm it, and both records are one from then on.',
  })
  async claimFish(
    @Args('input', { description: 'Which, and as what.' }) input: ClaimFishInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<FishClaimModel> {
    return toClaim(await this.claims.claim(input, account), account.keepsFor);
  }

  @Mutation(() => FishClaimModel, {
    description:
      'Confirms a claim, which makes one fish of both records, or declines it. Refused where a fish would be its own ancestor or its sex does not fit its young.',
  })
  async answerFishClaim(
    @Args('id', WHICH) id: string,
    @Args('confirmed', { type: () => Boolean, description: 'Whether it is so.' })
    confirmed: boolean,
    @CurrentAccount() account: SignedInPerson,
    @Args('word', { type: () => String, nullable: true, description: 'A word about it.' })
    word?: string | null,
  ): Promise<FishClaimModel> {
    return toClaim(
      await this.claims.answer(id, confirmed, word ?? null, account),
      account.keepsFor,
    );
  }

  @Mutation(() => FishClaimModel, { description: 'Takes back a claim that was not answered.' })
  async takeBackFishClaim(
    @Args('id', WHICH) id: string,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<FishClaimModel> {
    return toClaim(await this.claims.takeBack(id, account), account.keepsFor);
  }

  @ResolveField(() => PersonModel, { description: 'Who claims it.' })
  by(@Parent() { byId }: FishClaimModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(byId, context);
  }

  @ResolveField(() => PersonModel, { description: 'Who recorded the tag.' })
  to(@Parent() { toId }: FishClaimModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(toId, context);
  }
}
