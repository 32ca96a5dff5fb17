import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { passesOverThePedigree } from '../graphql/work-costs.js';
import { IncludeUnsorted } from '../kinship/include-unsorted.js';
import { RelationshipMapModel } from './relationship-map.model.js';
import { RelationshipMapService } from './relationship-map.service.js';

@Resolver(() => RelationshipMapModel)
export class RelationshipResolver {
  constructor(private readonly maps: RelationshipMapService) {}

  @Query(() => RelationshipMapModel, {
    description: 'Coancestries of the fish in use, ordered so that families stand together.',
    complexity: passesOverThePedigree,
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
    @IncludeUnsorted() includeUnsorted: boolean,
  ): Promise<RelationshipMapModel> {
    return this.maps.of({
      lineIds: lineIds ?? null,
      fishIds: fishIds ?? null,
      includeUnsorted,
    });
  }
}
