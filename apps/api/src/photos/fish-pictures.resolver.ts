import { Args, ID, Query, Resolver } from '@nestjs/graphql';
import { FishPictureModel } from './fish-picture.model.js';
import { FishPicturesService } from './fish-pictures.service.js';

@Resolver(() => FishPictureModel)
export class FishPicturesResolver {
  constructor(private readonly pictures: FishPicturesService) {}

  @Query(() => [FishPictureModel], {
    description:
      'The newest picture of each of these fish, and how each was last seen to look; only fish of which there is one of the two.',
  })
  fishPictures(
    @Args('fishIds', { type: () => [ID], description: 'Fish.' }) fishIds: string[],
  ): Promise<FishPictureModel[]> {
    return this.pictures.of(fishIds);
  }
}
