import { Field, Float, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { ComputationModel } from '../jobs/computation.model.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import { MeritRefusalModel } from './trait-merit.model.js';

export const TogetherVerdict = {
  TOGETHER: 'together',
  AGAINST_EACH_OTHER: 'against each other',
  CANNOT_TELL_YET: 'cannot tell yet',
} as const;
export type TogetherVerdict = (typeof TogetherVerdict)[keyof typeof TogetherVerdict];
registerEnumType(TogetherVerdict, {
  name: 'TogetherVerdict',
  description:
    'What the scores say of two traits. They never show that the two have nothing in common.',
  valuesMap: {
    TOGETHER: { description: 'What raises one raises the other.' },
    AGAINST_EACH_OTHER: { description: 'What raises one lowers the other.' },
    CANNOT_TELL_YET: { description: 'These scores cannot tell.' },
  },
});

@ObjectType('TraitCorrelation', {
  description: 'How two traits go together in one part of the model.',
})
export class TraitCorrelationModel {
  @Field(() => String, {
    description: 'The part: `additive` for what is inherited, `residual` for the rest.',
  })
  part: string;

  @Field(() => Float, {
    nullable: true,
    description: 'From -1 to 1; null where one of the two does not vary in this part.',
  })
  correlation: number | null;

  @Field(() => Float, { nullable: true, description: 'Standard error; null where none is known.' })
  standardError: number | null;
}

@ObjectType('ValueFromBoth', {
  description: 'What a fish passes on of one trait, by the scores of both traits.',
})
export class ValueFromBothModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => Float, { description: 'The breeding value, in the trait’s unit.' })
  value: number;

  @Field(() => Float, { description: 'Standard error, the variances taken as known.' })
  standardError: number;

  @Field(() => Float, {
    nullable: true,
    description:
      'How far the mean of its young is expected above the mean of its line’s fish in use; null for a fish without a line.',
  })
  aboveLine: number | null;

  @Field(() => Float, {
    description: 'Give or take: in four of five cases that mean lies within so much of it.',
  })
  giveOrTake: number;
}

@ObjectType('TraitsTogether', { description: 'How two traits go together.' })
export class TraitsTogetherModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => TraitDefinitionModel, { description: 'The other.' })
  other: TraitDefinitionModel;

  @Field(() => Int, { description: 'Fish scored on either.' })
  fishScored: number;

  @Field(() => Int, { description: 'Fish scored on both.' })
  fishWithBoth: number;

  @Field(() => TogetherVerdict, {
    nullable: true,
    description: 'What the scores say of what is inherited; null while waited for or refused.',
  })
  verdict: TogetherVerdict | null;

  @Field(() => Float, {
    nullable: true,
    description:
      'Twice by how much ln of the likelihood falls when the two are inherited apart; told from 3.84.',
  })
  likelihoodRatio: number | null;

  @Field(() => [TraitCorrelationModel], {
    description: 'Part by part: what is inherited first, the rest last.',
  })
  correlations: TraitCorrelationModel[];

  @Field(() => [ValueFromBothModel], {
    description: 'What the fish that was asked for passes on of each, by both; empty for none.',
  })
  ofFish: ValueFromBothModel[];

  @Field(() => [String], { description: 'What to know of these figures, in sentences.' })
  notes: string[];

  @Field(() => String, {
    nullable: true,
    description:
      'When fish were scored that somebody had chosen: what it does, in words; else null.',
  })
  selectionCaution: string | null;

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there is no figure.' })
  refusal: MeritRefusalModel | null;

  @Field(() => ComputationModel, { nullable: true, description: 'Set while it is worked out.' })
  waiting: ComputationModel | null;
}
