import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { InbreedingBasis } from '../graphql/enums.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';

@ObjectType('MappedFish', { description: 'A fish in a relationship map.' })
export class MappedFishModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Int, {
    description:
      'Fish in use that it stands for: itself, and its full sibs of the same sex where all would be too many for a map.',
  })
  standsFor: number;

  @Field(() => Int, { description: 'Its family: place in `families`.' })
  family: number;

  @Field(() => Float, { description: 'Its own F.' })
  inbreedingCoefficient: number;

  @Field(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis: InbreedingBasis;

  @Field(() => Float, { description: 'Mean coancestry with all fish of the map, itself included.' })
  meanKinship: number;
}

@ObjectType('MappedFamily', {
  description: 'Fish that stand together in a relationship map.',
})
export class MappedFamilyModel {
  @Field(() => Int, { description: 'Place of its first fish.' })
  start: number;

  @Field(() => Int, { description: 'Number of fish.' })
  count: number;

  @Field(() => Float, {
    description: 'Mean coancestry at which its last two parts were joined; 0 for a fish alone.',
  })
  joinedAt: number;
}

@ObjectType('RelationshipMap', {
  description: 'Coancestries of a set of fish, ordered so that families stand together.',
})
export class RelationshipMapModel {
  @Field(() => [MappedFishModel], { description: 'The fish in the order of the map.' })
  fish: MappedFishModel[];

  @Field(() => [MappedFamilyModel], { description: 'The families, in order.' })
  families: MappedFamilyModel[];

  @Field(() => Float, {
    description:
      'Mean coancestry from which groups are one family: that of half sibs, counted from what the middle pair of the map shares.',
  })
  familyAt: number;

  @Field(() => [Float], {
    description:
      'Coancestries, each pair once: row by row, row i with the columns 0 to i. n (n + 1) / 2 values.',
  })
  coancestry: number[];

  @Field(() => Int, { description: 'Fish that the map is about, shown or stood for.' })
  inUseCount: number;

  @Field(() => String, { nullable: true, description: 'Why the map is empty.' })
  whyNone: string | null;
}
