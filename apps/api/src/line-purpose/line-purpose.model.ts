import { STARTING_PURPOSE } from '@linewright/mating';
import { Field, Float, ID, InputType, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Count, CountOrNone, Figure, FigureOrNone } from '../graphql/figure-fields.js';
import { connectionOf } from '../graphql/connection.js';
import { DateScalar } from '../graphql/date.scalar.js';

export const TraitDirection = { HIGHER: 'higher', LOWER: 'lower', WITHIN: 'within' } as const;
export type TraitDirection = (typeof TraitDirection)[keyof typeof TraitDirection];
registerEnumType(TraitDirection, {
  name: 'TraitDirection',
  description: 'Which values of a trait are better.',
  valuesMap: {
    HIGHER: { description: 'The higher the better.' },
    LOWER: { description: 'The lower the better.' },
    WITHIN: { description: 'Those within a range; less or more is worth less.' },
  },
});

@ObjectType('TraitAim', { description: 'What is wanted of a trait.' })
@InputType('TraitAimInput', { description: 'What is wanted of a trait.' })
export class TraitAimModel {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => TraitDirection, { description: 'Which values are better.' })
  better: TraitDirection;

  @FigureOrNone('Lowest value that passes, in the unit of the trait; null: none.')
  low: number | null;

  @FigureOrNone('Highest value that passes, in the unit of the trait; null: none.')
  high: number | null;

  @Figure(
    'Points for one unit of the trait on the better side; with a range, points lost for one unit outside of it.',
  )
  worth: number;
}

@ObjectType('LookPart', { description: 'What is seen at one locus.' })
@InputType('LookPartInput', { description: 'What is seen at one locus.' })
export class LookPartModel {
  @Field(() => String, { description: 'The locus.' })
  locusId: string;

  @Field(() => String, { description: 'Id of what is seen at it.' })
  phenotype: string;
}

@ObjectType('LookAim', { description: 'A look that is wanted on a young, or not.' })
@InputType('LookAimInput', { description: 'A look that is wanted on a young, or not.' })
export class LookAimModel {
  @Field(() => [LookPartModel], { description: 'All that one fish shows, one part a locus.' })
  show: LookPartModel[];

  @Field(() => Boolean, { description: 'False for a look that is not wanted.' })
  wanted: boolean;

  @Figure('Points that a young gains by a wanted look, or loses by an unwanted one.')
  worth: number;

  @Field(() => Boolean, {
    description:
      'A young passes only with it, where it is wanted; only without it, where it is not.',
  })
  required: boolean;
}

@ObjectType('PairingAges', { description: 'Ages in days at which a fish is paired.' })
@InputType('PairingAgesInput', { description: 'Ages in days at which a fish is paired.' })
export class PairingAgesModel {
  @Count('Below this age a fish is too young.')
  capableFrom: number;

  @Count('Below this age it is young.')
  preferredFrom: number;

  @Count('Above this age it is past its best.')
  bestUntil: number;

  @Count('Above this age fertility has usually fallen.')
  fertileUntil: number;
}

@ObjectType('RestDays', { description: 'Days since the last spawn of a fish.' })
@InputType('RestDaysInput', { description: 'Days since the last spawn of a fish.' })
export class RestDaysModel {
  @Count('With fewer days it still rests.')
  least: number;

  @Count('With fewer days the rest was short.')
  preferred: number;
}

@ObjectType('LengthRatio', { description: 'Body length of the female, over that of the male.' })
@InputType('LengthRatioInput', { description: 'Body length of the female, over that of the male.' })
export class LengthRatioModel {
  @Figure('Below this the two do not match in size.')
  least: number;

  @Figure('Above this the two do not match in size.')
  most: number;
}

@ObjectType('PairingRules', { description: 'Ages, rests and sizes that pairs are judged by.' })
@InputType('PairingRulesInput', { description: 'Ages, rests and sizes that pairs are judged by.' })
export class PairingRulesModel {
  @Field(() => PairingAgesModel, { description: 'Ages.' })
  ages: PairingAgesModel;

  @Field(() => RestDaysModel, { description: 'Rest of a male.' })
  maleRest: RestDaysModel;

  @Field(() => RestDaysModel, { description: 'Rest of a female.' })
  femaleRest: RestDaysModel;

  @Field(() => LengthRatioModel, {
    nullable: true,
    description: 'How the two are to match in size; null: sizes are not looked at.',
  })
  bodyLengthRatio: LengthRatioModel | null;

  @Field(() => Float, {
    description:
      'Known share of the ancestors of four generations below which it speaks against a pair that F may be higher than shown, 0 to 1.',
    defaultValue: STARTING_PURPOSE.rules.knownAncestryFrom,
  })
  knownAncestryFrom: number;
}

@ObjectType('LinePurpose', { description: 'What a line is for, and what this round may take.' })
@InputType('LinePurposeInput', {
  description: 'What a line is for, and what this round may take; all of it.',
})
export class LinePurposeModel {
  @Field(() => [TraitAimModel], { description: 'What is wanted of its traits.' })
  traits: TraitAimModel[];

  @Field(() => [LookAimModel], { description: 'Looks that are wanted, and that are not.' })
  looks: LookAimModel[];

  @Figure('Highest F of a brood, 0 to 1.')
  ceiling: number;

  @FigureOrNone(
    'By how much the mean kinship of the line may rise in one generation, 0 to 1 of what is left; null: no limit.',
  )
  kinshipRise: number | null;

  @Count('Broods to make in this round.')
  broods: number;

  @CountOrNone('Vessels for spawning and raising, one a brood; null: as many as broods.')
  vessels: number | null;

  @Count('Broods that one fish may have in this round.')
  broodsPerFish: number;

  @CountOrNone('Young that can be raised in all; null: no limit.')
  fry: number | null;

  @Count('Young kept of all broods together for the next generation.')
  keep: number;

  @Field(() => DateScalar, { nullable: true, description: 'First day for pairs; null: open.' })
  earliest: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Last day for pairs; null: open.' })
  latest: string | null;

  @FigureOrNone(
    'Points that a young loses for each 0.1 of its F; null: as it is measured here, else the stated rate.',
  )
  inbreedingCost: number | null;

  @Field(() => PairingRulesModel, { description: 'Ages, rests and sizes.' })
  rules: PairingRulesModel;
}

@ObjectType('LinePurposeVersion', {
  description: 'What a line was said to be for at one time; never changed.',
})
export class LinePurposeVersionModel {
  @Count('1, 2, 3, …; 0 while nobody has said it, and the content is what is taken until then.')
  version: number;

  @Field(() => Date, { nullable: true, description: 'When it was said.' })
  at: Date | null;

  @Field(() => String, { nullable: true, description: 'Who said it.' })
  by: string | null;

  @Field(() => String, { nullable: true, description: 'Why it was said.' })
  note: string | null;

  @Field(() => LinePurposeModel, { description: 'What was said.' })
  content: LinePurposeModel;
}

@ObjectType('LinePurposeVersionConnection', { description: 'One page of versions.' })
export class LinePurposeVersionConnectionModel extends connectionOf(
  LinePurposeVersionModel,
  'LinePurposeVersion',
  'versions',
) {}

@InputType({ description: 'Says what a line is for.' })
export class SayWhatLineIsForInput {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Count('The version that the form was opened at; 0 when none was said.')
  expectedVersion: number;

  @Field(() => LinePurposeModel, { description: 'What it is for, all of it.' })
  content: LinePurposeModel;

  @Field(() => String, { nullable: true, description: 'Why it is said.' })
  note?: string | null;
}
