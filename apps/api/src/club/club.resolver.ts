import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentAccount, ForWhoseLine } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { ClubService } from './club.service.js';
import { ClubConsentInput, ClubConsentModel, ClubModel } from './club.model.js';
import { ConsentService } from './consent.service.js';
import { PooledHeritabilityModel, PooledStageModel } from './pooled.model.js';
import { PooledService } from './pooled.service.js';

@Resolver()
export class ClubResolver {
  constructor(
    private readonly lines: ClubService,
    private readonly consents: ConsentService,
    private readonly pooled: PooledService,
  ) {}

  @Query(() => ClubModel, {
    description:
      'Lines that keepers on this server show each other, the kinship between them, and which hold the blood of which founder.',
  })
  club(
    @Args('lineId', {
      type: () => ID,
      nullable: true,
      description: 'A line that you see: the others are ordered by their kinship with it.',
    })
    lineId: string | null,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubModel> {
    return this.lines.of(lineId ?? null, account);
  }

  @Query(() => ClubConsentModel, {
    nullable: true,
    description: 'What the club may know of a line of your own; null for one of somebody else.',
  })
  clubConsent(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubConsentModel | null> {
    return this.consents.of(lineId, account);
  }

  @ForWhoseLine()
  @Mutation(() => ClubConsentModel, {
    description: 'Says what the club may know of a line of your own, from now on.',
  })
  setClubConsent(
    @Args('input', { description: 'What it may know.' }) input: ClubConsentInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<ClubConsentModel> {
    return this.consents.set(input, account);
  }

  @Query(() => [PooledStageModel], {
    description:
      'What inbreeding costs over the lines that count, stage by stage, told where nobody’s own can be read off.',
  })
  clubLoad(): Promise<PooledStageModel[]> {
    return this.pooled.load();
  }

  @Query(() => PooledHeritabilityModel, {
    description:
      'How much of a trait is inherited over the lines that count, told where nobody’s own can be read off.',
  })
  clubHeritability(
    @Args('traitId', { type: () => ID, description: 'The trait.' }) traitId: string,
  ): Promise<PooledHeritabilityModel> {
    return this.pooled.heritability(traitId);
  }
}
