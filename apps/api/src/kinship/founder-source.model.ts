import { Field, ObjectType } from '@nestjs/graphql';
import { NamedFishModel } from '../shapes/named-fish.model.js';

@ObjectType('FounderSource', { description: 'Where genes of a stock enter the pedigree.' })
export class FounderSourceModel {
  @Field(() => NamedFishModel, {
    description: 'The founder, or the fish of which one parent is unknown.',
  })
  fish: NamedFishModel;

  @Field(() => Boolean, { description: 'True for the unknown parent of `fish`.' })
  unknownParent: boolean;
}
