import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { LoadColumn, LoadStage, LoadVerdict } from '../merit/line-load.model.js';

/** What every pooled figure tells of what is in it. */
@ObjectType({ isAbstract: true })
class PooledModel {
  @Field(() => Int, {
    nullable: true,
    description: 'Keepers whose records are in it; null where that is not told.',
  })
  keepers: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Lines in it; null where that is not told.',
  })
  lines: number | null;

  @Field(() => String, { nullable: true, description: 'Why nothing is told; null where it is.' })
  whyNot: string | null;
}

@ObjectType('PooledCost', { description: 'What inbreeding costs over several keepers’ lines.' })
export class PooledCostModel {
  @Field(() => LoadColumn, { description: 'Whose inbreeding.' })
  column: LoadColumn;

  @Field(() => Float, {
    description:
      'Lethal equivalents a gamete, to two digits: −ln of survival rises by it from F = 0 to F = 1.',
  })
  perGamete: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Lower end of its interval of 95 %; null: none.',
  })
  low: number | null;

  @Field(() => Float, { nullable: true, description: 'Upper end; null: none.' })
  high: number | null;

  @Field(() => LoadVerdict, { description: 'What these broods say.' })
  verdict: LoadVerdict;
}

@ObjectType('PooledStage', {
  description: 'What inbreeding costs at one stage, each line with a level of its own.',
})
export class PooledStageModel extends PooledModel {
  @Field(() => LoadStage, { description: 'The stage.' })
  stage: LoadStage;

  @Field(() => Int, {
    nullable: true,
    description: 'Broods in it; null where that is not told.',
  })
  broods: number | null;

  @Field(() => [PooledCostModel], { description: 'Empty where nothing is told.' })
  costs: PooledCostModel[];
}

@ObjectType('PooledHeritability', {
  description: 'How much of a trait is inherited over several keepers’ lines.',
})
export class PooledHeritabilityModel extends PooledModel {
  @Field(() => Int, {
    nullable: true,
    description: 'Scored fish in it; null where that is not told.',
  })
  fish: number | null;

  @Field(() => Float, { nullable: true, description: 'Mean, to two digits.' })
  mean: number | null;

  @Field(() => Float, { nullable: true, description: 'Lower end of its band of 95 %.' })
  low: number | null;

  @Field(() => Float, { nullable: true, description: 'Upper end.' })
  high: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Share of it that came with what was taken as likely before, 0 to 1.',
  })
  fromPrior: number | null;
}
