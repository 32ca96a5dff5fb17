import { Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { FishModel } from '../shapes/fish.model.js';
import { InbreedingSourcesModel } from './inbreeding-sources.model.js';
import { InbreedingSourcesService } from './inbreeding-sources.service.js';

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
