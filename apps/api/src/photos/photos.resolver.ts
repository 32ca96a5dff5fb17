import { Args, Context, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { CaptionPhotoInput } from './photo.inputs.js';
import { toScore } from '../shapes/score.mapper.js';
import { ScoreModel } from '../shapes/score.model.js';
import { isStanding, ScoreLoader } from '../stock/score.loader.js';
import { PhotoLoader } from '../stock/photo.loader.js';
import { toPhoto } from './photo.mapper.js';
import { PhotoModel } from './photo.model.js';
import { PhotosService } from './photos.service.js';

@Resolver(() => PhotoModel)
export class PhotosResolver {
  constructor(
    private readonly photos: PhotosService,
    private readonly scores: ScoreLoader,
  ) {}

  @ResolveField(() => [ScoreModel], {
    description: 'Scores that were measured on it and stand, newest first.',
  })
  async markings(@Parent() photo: PhotoModel, @Context() context: object): Promise<ScoreModel[]> {
    const scores = await this.scores.byPhoto.of(context).load(photo.id);
    return scores.filter(isStanding).map(toScore);
  }

  @Mutation(() => PhotoModel, { description: 'Corrects the caption or the day of a picture.' })
  async captionPhoto(
    @Args('input', { description: 'What changes.' }) input: CaptionPhotoInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PhotoModel> {
    return toPhoto(await this.photos.caption(input, person));
  }

  @Mutation(() => PhotoModel, {
    description: 'Withdraws a picture: it is no longer shown or served.',
  })
  async withdrawPhoto(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PhotoModel> {
    return toPhoto(await this.photos.withdraw(input, person));
  }
}

@Resolver(() => FishModel)
export class FishPhotosResolver {
  constructor(private readonly loader: PhotoLoader) {}

  @ResolveField(() => [PhotoModel], {
    description: 'Its pictures, those of its looks on score sheets included, newest first.',
  })
  async photos(@Parent() fish: FishModel, @Context() context: object): Promise<PhotoModel[]> {
    return (await this.loader.ofFish.of(context).load(fish.id)).map(toPhoto);
  }
}

@Resolver(() => SpawnModel)
export class SpawnPhotosResolver {
  constructor(private readonly loader: PhotoLoader) {}

  @ResolveField(() => [PhotoModel], {
    description: 'Its pictures, those of its events included, newest first.',
  })
  async photos(@Parent() spawn: SpawnModel, @Context() context: object): Promise<PhotoModel[]> {
    return (await this.loader.ofSpawn.of(context).load(spawn.id)).map(toPhoto);
  }
}
