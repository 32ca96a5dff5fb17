import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { passesOverThePedigree } from '../graphql/work-costs.js';
import { IncludeUnsorted } from '../kinship/include-unsorted.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toLineHealth } from './line-health.mapper.js';
import { LineHealthModel } from './line-health.model.js';
import { LineHealthService } from './line-health.service.js';

@Resolver(() => LineHealthModel)
export class LineHealthResolver {
  constructor(private readonly health: LineHealthService) {}

  @Query(() => LineHealthModel, {
    description: 'How a line stands: F, founders, effective numbers, who carries what.',
    complexity: passesOverThePedigree,
  })
  async lineHealth(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @IncludeUnsorted() includeUnsorted: boolean,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineHealthModel> {
    return toLineHealth(
      await this.health.of(lineId, includeUnsorted, person.name),
      includeUnsorted,
    );
  }
}
