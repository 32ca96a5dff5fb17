import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { ComputationModel } from '../jobs/computation.model.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import { MeritRefusalModel } from './trait-merit.model.js';

@ObjectType('TrendGeneration', { description: 'How a trait stands in one generation of a line.' })
export class TrendGenerationModel {
  @Field(() => Int, { description: 'Longest line of descent from a founder.' })
  generation: number;

  @Field(() => Int, { description: 'Fish of the line.' })
  fish: number;

  @Field(() => Int, { description: 'Of these, scored.' })
  scored: number;

  @Field(() => Float, { nullable: true, description: 'Mean score; it moves with the seasons too.' })
  meanScore: number | null;

  @Field(() => Float, { nullable: true, description: 'Its standard error.' })
  meanScoreError: number | null;

  @Field(() => Float, { description: 'Mean breeding value by the linear model.' })
  meanValue: number;

  @Field(() => Float, {
    description:
      'Its standard error at the mean shares: errors of relatives go together. 1.28 of it either way is a band of 80 %, 1.96 of 95 %.',
  })
  meanValueError: number;

  @Field(() => Float, { description: 'Mean F.' })
  meanInbreeding: number;

  @Field(() => Float, { description: 'Mean kinship of its fish with each other and themselves.' })
  meanKinship: number;

  @Field(() => Float, {
    nullable: true,
    description: 'How far the parents of the next generation scored above this one.',
  })
  selectionDifferential: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'What it was expected to gain on the one before.',
  })
  expectedResponse: number | null;

  @Field(() => Float, { nullable: true, description: 'What its mean score did gain.' })
  realisedResponse: number | null;
}

@ObjectType('TraitTrend', { description: 'Whether a line is moving in a trait.' })
export class TraitTrendModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => [TrendGenerationModel], {
    description:
      'By generation; empty when no fish of the line was scored, and while it is waited for.',
  })
  generations: TrendGenerationModel[];

  @Field(() => Float, {
    nullable: true,
    description: 'Realised heritability: slope of what was gained on what was selected.',
  })
  realisedHeritability: number | null;

  @Field(() => Float, { nullable: true, description: 'Its standard error.' })
  realisedHeritabilityError: number | null;

  @Field(() => Float, {
    nullable: true,
    description:
      'Generation interval: mean age of parents, in days, when young of theirs that bred hatched.',
  })
  generationInterval: number | null;

  @Field(() => String, {
    nullable: true,
    description:
      'When fish were scored that somebody had chosen: what bands then hold, in words; else null.',
  })
  selectionCaution: string | null;

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there are no figures.' })
  refusal: MeritRefusalModel | null;

  @Field(() => ComputationModel, { nullable: true, description: 'Set while it is worked out.' })
  waiting: ComputationModel | null;
}
