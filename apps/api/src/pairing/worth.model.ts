import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { TraitDefinitionModel } from '../shapes/score.model.js';

@ObjectType('TraitOfPair', {
  description: 'What the young of a pair are expected to be for a trait.',
})
export class TraitOfPairModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => Float, { description: 'Expected mean score of the brood.' })
  mean: number;

  @Field(() => Float, {
    description:
      'Standard deviation of that mean: what all young share and nobody knows yet, such as the errors of the parents’ values.',
  })
  meanError: number;

  @Field(() => Float, {
    description: 'Standard deviation of single young round the mean of their brood.',
  })
  deviation: number;

  @Field(() => Float, {
    description:
      'The part of that variance that the draw of the parents’ alleles makes, as a share.',
  })
  inheritedShare: number;

  @Field(() => Float, { description: 'Mean score of the line as it is.' })
  lineMean: number;

  @Field(() => Float, { description: 'Standard deviation of scores in the line as it is.' })
  lineDeviation: number;

  @Field(() => Float, { nullable: true, description: 'Lowest score that passes.' })
  low: number | null;

  @Field(() => Float, { nullable: true, description: 'Highest score that passes.' })
  high: number | null;

  @Field(() => Float, {
    description: 'What the mean is worth, in points, against the line as it is.',
  })
  points: number;
}

@ObjectType('LookOfPair', {
  description: 'A look that the line is for or against, among the young of a pair.',
})
export class LookOfPairModel {
  @Field(() => String, { description: 'The look in words.' })
  label: string;

  @Field(() => Boolean, { description: 'Wanted, or not wanted.' })
  wanted: boolean;

  @Field(() => Boolean, { description: 'Whether a young passes by it alone or fails by it alone.' })
  required: boolean;

  @Field(() => Float, {
    nullable: true,
    description:
      'Expected share of young that show it, by what both parents may carry; null when that is not known.',
  })
  share: number | null;

  @Field(() => Float, { nullable: true, description: 'What it is worth, in points.' })
  points: number | null;
}

@ObjectType('WorthOfPair', {
  description: 'What a pair is worth for its line, in your own points for one young kept.',
})
export class WorthOfPairModel {
  @Field(() => Float, { description: 'Points.' })
  points: number;

  @Field(() => Float, { description: 'Standard error: what is not known of the two parents.' })
  standardError: number;

  @Field(() => Boolean, {
    nullable: true,
    description:
      'True when it cannot be told apart from the best pair of the list: they differ by no more than twice the standard error of their difference. Null outside of a list.',
  })
  likeBest: boolean | null;

  @Field(() => [TraitOfPairModel], { description: 'By trait.' })
  traits: TraitOfPairModel[];

  @Field(() => [LookOfPairModel], { description: 'By look.' })
  looks: LookOfPairModel[];

  @Field(() => Float, {
    description: 'Points that choosing the best of the brood by score adds, in what is passed on.',
  })
  choice: number;

  @Field(() => Float, { description: 'Points that the F of the brood takes: 0 or below.' })
  inbreeding: number;

  @Field(() => Float, { description: 'Young expected to be raised to sorting.' })
  raised: number;
}

@ObjectType('WorthDifference', { description: 'How far two pairs lie apart in worth.' })
export class WorthDifferenceModel {
  @Field(() => Float, { description: 'Points of the first less those of the second.' })
  points: number;

  @Field(() => Float, {
    description: 'Standard error of the difference; what both pairs rest on alike cancels.',
  })
  standardError: number;

  @Field(() => Boolean, { description: 'Whether it is more than twice that error.' })
  toldApart: boolean;
}

@ObjectType('FryForChance', { description: 'Fry to raise for a chance.' })
export class FryForChanceModel {
  @Field(() => Float, { description: 'The chance.' })
  certainty: number;

  @Field(() => Int, { nullable: true, description: 'Fry; null when no number in reach is enough.' })
  fry: number | null;
}

@ObjectType('PassingOfPair', {
  description: 'How likely the brood gives the young that are to be kept of it.',
})
export class PassingOfPairModel {
  @Field(() => Float, { nullable: true, description: 'Expected share of young that pass.' })
  share: number | null;

  @Field(() => Int, { description: 'Young to keep of this brood.' })
  wanted: number;

  @Field(() => Int, { description: 'How many swimming fry the figures assume.' })
  fry: number;

  @Field(() => Float, { description: 'Share of them that lives to sorting.' })
  survival: number;

  @Field(() => Float, { nullable: true, description: 'Chance that at least so many pass.' })
  chance: number | null;

  @Field(() => [FryForChanceModel], {
    description: 'Fry to raise for a chance of 80, 90 and 95 %.',
  })
  fryFor: FryForChanceModel[];
}

export const CostBasis = { PERSON: 'person', STATED_RATE: 'stated-rate' } as const;
export type CostBasis = (typeof CostBasis)[keyof typeof CostBasis];
registerEnumType(CostBasis, {
  name: 'CostBasis',
  description: 'Whose word the cost of inbreeding is.',
  valuesMap: {
    PERSON: { description: 'It is said by a person, with what the line is for.' },
    STATED_RATE: {
      description: 'A published rate for farm animals, in the spread of the line’s points.',
    },
  },
});

@ObjectType('NotCountedTrait', { description: 'A trait aimed at of which nothing is known yet.' })
export class NotCountedTraitModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => String, { description: 'Why.' })
  reason: string;
}

@ObjectType('PairBasis', { description: 'What pairs are judged by.' })
export class PairBasisModel {
  @Field(() => ID, {
    nullable: true,
    description:
      'The line whose purpose counts; null where no line, or several, are looked at: then pairs stand in order of F.',
  })
  lineId: string | null;

  @Field(() => Int, {
    description:
      'Version of what the line is for; 0 while nobody said it: then pairs stand in order of F.',
  })
  version: number;

  @Field(() => Float, { description: 'Points that a young loses for each 0.1 of its F.' })
  inbreedingCost: number;

  @Field(() => CostBasis, { description: 'Whose word that is.' })
  costBasis: CostBasis;

  @Field(() => Boolean, {
    description:
      'Whether it counts that the errors of related fish’s values go together; else each is taken by itself.',
  })
  errorsTogether: boolean;

  @Field(() => Int, { description: 'Young to keep of one brood.' })
  keep: number;

  @Field(() => Int, { description: 'Swimming fry of one brood.' })
  fry: number;

  @Field(() => Float, { description: 'Share of them that lives to sorting.' })
  survival: number;

  @Field(() => Float, {
    description:
      'Lethal equivalents a gamete by which inbreeding lessens that share, where the line’s own broods tell it; else 0.',
  })
  load: number;

  @Field(() => Int, {
    description: 'Counted broods of the line behind fry and survival; 0: guides without a source.',
  })
  countedBroods: number;

  @Field(() => [NotCountedTraitModel], {
    description: 'Traits aimed at that could not be counted.',
  })
  notCounted: NotCountedTraitModel[];
}

@ObjectType('PlaceInLine', {
  description:
    'What a fish keeps for its own line: how few of its relatives are among the fish in use.',
})
export class PlaceInLineModel {
  @Field(() => Float, {
    description: 'Mean coancestry with the fish in use of its line, itself among them.',
  })
  meanCoancestry: number;

  @Field(() => Int, { description: 'Its place by that, the least related first.' })
  place: number;

  @Field(() => Int, { description: 'Of how many.' })
  of: number;

  @Field(() => Float, {
    description:
      'By how much the mean coancestry of the line would rise without it; below 0 when it would fall.',
  })
  riseWithout: number;
}

@ObjectType('LineWithYoung', {
  description: 'What the young of a pair do to the kinship of the line that both are of.',
})
export class LineWithYoungModel {
  @Field(() => Int, { description: 'Fish in use of the line.' })
  fish: number;

  @Field(() => Int, { description: 'Young of the brood that are counted as kept.' })
  keep: number;

  @Field(() => Float, {
    description: 'Mean coancestry of the line’s fish as they are, each with itself included.',
  })
  now: number;

  @Field(() => Float, { description: 'Mean coancestry of one young with them.' })
  ofYoung: number;

  @Field(() => Float, { description: 'Mean coancestry of the line with those young beside them.' })
  after: number;
}

@ObjectType('ConditionOfFish', {
  description: 'What a pair finds a fish in, on the day it is judged.',
})
export class ConditionOfFishModel {
  @Field(() => Int, { nullable: true, description: 'Days since it hatched.' })
  ageDays: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Days since its last spawn; null when none is on record.',
  })
  restDays: number | null;

  @Field(() => Int, { description: 'Spawns on record that did not fail.' })
  spawns: number;

  @Field(() => Int, { description: 'Spawns on record that failed.' })
  failures: number;

  @Field(() => Boolean, { description: 'Alive, and here.' })
  isHere: boolean;

  @Field(() => PlaceInLineModel, {
    nullable: true,
    description:
      'Its place in its own line; null for a fish of no line, or not in use, or the only one of its line.',
  })
  place: PlaceInLineModel | null;
}
