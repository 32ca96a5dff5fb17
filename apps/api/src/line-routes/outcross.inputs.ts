import { Field, Float, ID, InputType } from '@nestjs/graphql';
import { Sex } from '../graphql/enums.js';
import { CountWith } from './line-routes.inputs.js';

@InputType({ description: 'What a fish shows at one locus.' })
export class LookSeenInput {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its look there, by id.' })
  phenotype: string;
}

@InputType({ description: 'A fish that is not on record: what can be seen of it.' })
export class DescribedFishInput {
  @Field(() => Sex, { description: 'MALE or FEMALE.' })
  sex: Sex;

  @Field(() => [LookSeenInput], {
    description: 'Its looks, each locus once; what is not named was not looked at.',
  })
  shows: LookSeenInput[];
}

@InputType({
  description:
    'A line and a partner from outside it: a fish on record, or one described by its looks.',
})
export class LineOutcrossInput {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => ID, { nullable: true, description: 'The partner, where it is on record.' })
  partnerId?: string | null;

  @Field(() => DescribedFishInput, {
    nullable: true,
    description: 'The partner, where it is not on record.',
  })
  described?: DescribedFishInput | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Its mate of the line; chosen by what the line is for when absent.',
  })
  mateId?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'The fish of the line that the young are put back to; chosen when absent.',
  })
  backId?: string | null;

  @CountWith('Generations, the cross with them, 1 to 6.', 4)
  generations: number;

  @CountWith('Generations that the line is forecast, 1 to 10.', 6)
  forecastGenerations: number;

  @CountWith('Young of a brood raised to the age of sorting, 2 to 100.', 20)
  fryPerBrood: number;

  @Field(() => Float, {
    description:
      'Share of the young of a brood that have to pass what the line is for, for the outcross to have succeeded; above 0, up to 1.',
    defaultValue: 0.5,
  })
  share: number;

  @Field(() => Boolean, {
    description: 'Simulate the chance and the forecast, too; false: only what follows exactly.',
    defaultValue: true,
  })
  simulated: boolean;
}
