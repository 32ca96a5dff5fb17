import { Args, ID, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { InbreedingSourcesModel } from './inbreeding-sources.model.js';
import { InbreedingSourcesService } from './inbreeding-sources.service.js';
import { toLineHealth } from './line-health.mapper.js';
import { LineHealthModel } from './line-health.model.js';
import { LineHealthService } from './line-health.service.js';
import { RelationshipMapModel } from './relationship-map.model.js';
import { RelationshipMapService } from './relationship-map.service.js';

/** Either stands for passes over a pedigree and lists of hundreds: a few in one request, not twenty. */
const heavy = ({ childComplexity }: { childComplexity: number }): number => 3_000 + childComplexity;

const UNSORTED = {
  type: () => Boolean,
  defaultValue: false,
  description: 'Count fish not decided on yet as in use, beside keepers and those on hold.',
};

@Resolver(() => LineHealthModel)
export class PopulationResolver {
  constructor(
    private readonly health: LineHealthService,
    private readonly maps: RelationshipMapService,
  ) {}

  @Query(() => LineHealthModel, {
    description: 'How a line stands: F, founders, effective numbers, who carries what.',
    complexity: heavy,
  })
  async lineHealth(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @Args('includeUnsorted', UNSORTED) includeUnsorted: boolean,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineHealthModel> {
    return toLineHealth(
      await this.health.of(lineId, includeUnsorted, person.name),
      includeUnsorted,
    );
  }

  @Query(() => RelationshipMapModel, {
    description: 'Coancestries of the fish in use, ordered so that families stand together.',
    complexity: heavy,
  })
  relationshipMap(
    @Args('lineIds', {
      type: () => [ID],
      nullable: true,
      description: 'Fish in use of these lines; of all lines when absent.',
    })
    lineIds: string[] | null,
    @Args('fishIds', {
      type: () => [ID],
      nullable: true,
      description: 'These fish instead, in use or not; at most 500.',
    })
    fishIds: string[] | null,
    @Args('includeUnsorted', UNSORTED) includeUnsorted: boolean,
  ): Promise<RelationshipMapModel> {
    return this.maps.of({
      lineIds: lineIds ?? null,
      fishIds: fishIds ?? null,
      includeUnsorted,
    });
  }
}

@Resolver(() => FishModel)
export class InbreedingSourcesResolver {
  constructor(private readonly sources: InbreedingSourcesService) {}

  @ResolveField(() => InbreedingSourcesModel, {
    description: 'Where its F comes from: by founder, by origin, by age.',
    complexity: ({ childComplexity }) => 300 + childComplexity,
  })
  inbreedingSources(@Parent() fish: FishModel): Promise<InbreedingSourcesModel> {
    return this.sources.of(fish.id);
  }
}
