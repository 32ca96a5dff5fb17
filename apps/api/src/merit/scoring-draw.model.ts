import { Field, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('ScoringDraw', {
  description:
    'Fish of a brood that chance chose to be scored before it is sorted: their scores count as not selected.',
})
export class ScoringDrawModel extends RecordModel {
  @Field(() => DateScalar, { description: 'Day of the draw.' })
  drawnOn: string;

  @Field(() => Int, {
    description:
      'Young here, not yet sorted on that day and not drawn before, among which chance chose.',
  })
  drawnFrom: number;

  @Field(() => String, { description: 'Who asked for it.' })
  by: string;

  @Field(() => [NamedFishModel], { description: 'The fish chosen, by tag.' })
  fish: NamedFishModel[];
}
