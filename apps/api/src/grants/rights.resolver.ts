import type { Type } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { LinePart } from '../graphql/enums.js';
import { changeOf } from '../shapes/change.resolver.js';
import { FishModel } from '../shapes/fish.model.js';
import { LineModel } from '../shapes/line.model.js';
import { ScoreModel, TraitDefinitionModel } from '../shapes/score.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import {
  fishRecord,
  lineRecord,
  scoreRecord,
  spawnRecord,
  traitRecord,
} from '../stock/record-types.js';
import { PartsLoader } from '../stock/parts.loader.js';
import { RightsLoader } from '../stock/rights.loader.js';

@Resolver(() => FishModel)
export class FishRightsResolver {
  constructor(
    private readonly rights: RightsLoader,
    private readonly parts: PartsLoader,
  ) {}

  @ResolveField(() => [LinePart], {
    description:
      'Parts of it that are not shared with whoever asks: what is empty of them may be on record.',
  })
  notShared(@Parent() { id }: FishModel, @Context() context: object): Promise<readonly LinePart[]> {
    return this.parts.ofFish.of(context).load(id);
  }

  @ResolveField(() => Boolean, { description: 'True where whoever asks may score it.' })
  mayScore(@Parent() { id }: FishModel, @Context() context: object): Promise<boolean> {
    return this.rights.scored.of(context).load(id);
  }
}

@Resolver(() => SpawnModel)
export class SpawnRightsResolver {
  constructor(private readonly parts: PartsLoader) {}

  @ResolveField(() => [LinePart], {
    description:
      'Parts of it that are not shared with whoever asks: what is empty of them may be on record.',
  })
  notShared(
    @Parent() { id }: SpawnModel,
    @Context() context: object,
  ): Promise<readonly LinePart[]> {
    return this.parts.ofSpawn.of(context).load(id);
  }
}

@Resolver(() => LineModel)
export class LineRightsResolver {
  constructor(private readonly rights: RightsLoader) {}

  @ResolveField(() => Boolean, {
    description:
      'True where whoever asks may plan pairs and record spawns and young of their own in it.',
  })
  mayBreed(@Parent() { id }: LineModel, @Context() context: object): Promise<boolean> {
    return this.rights.bred.of(context).load(id);
  }
}

/** What whoever asks may do with what they see. */
export const rightsResolvers: readonly Type<unknown>[] = [
  FishRightsResolver,
  SpawnRightsResolver,
  LineRightsResolver,
  changeOf(FishModel, fishRecord.target),
  changeOf(SpawnModel, spawnRecord.target),
  changeOf(LineModel, lineRecord.target),
  changeOf(TraitDefinitionModel, traitRecord.target),
  changeOf(ScoreModel, scoreRecord.target),
];
