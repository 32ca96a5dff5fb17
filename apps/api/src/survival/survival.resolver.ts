import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { SpawnSurvivalModel, SurvivalStart } from './survival.model.js';
import { SurvivalService } from './survival.service.js';

@Resolver(() => SpawnSurvivalModel)
export class SurvivalResolver {
  constructor(private readonly survival: SurvivalService) {}

  @Query(() => SpawnSurvivalModel, {
    description: 'Survival of a brood, beside the same person’s earlier spawns.',
    complexity: ({ childComplexity }) => 40 * childComplexity,
  })
  spawnSurvival(
    @Args('spawnId', { type: () => ID, description: 'The spawn.' }) spawnId: string,
    @Args('from', {
      type: () => SurvivalStart,
      nullable: true,
      description: 'The count to start from; the fry hatched when absent.',
    })
    from: SurvivalStart | null,
    @Args('sameLine', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Compare with spawns of the same line only.',
    })
    sameLine: boolean,
  ): Promise<SpawnSurvivalModel> {
    return this.survival.of(spawnId, from, sameLine);
  }
}
