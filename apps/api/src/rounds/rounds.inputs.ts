import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { IdSentOnce } from '../graphql/sent.js';

@InputType({ description: 'A male and a female.' })
export class PairOfFishInput {
  @Field(() => ID, { description: 'The male.' })
  sireId: string;

  @Field(() => ID, { description: 'The female.' })
  damId: string;
}

@InputType({ description: 'For which line pairs are proposed, and what is insisted on.' })
export class PairProposalInput {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => Float, {
    nullable: true,
    description:
      'Highest mean kinship of the parents, 0 to 1; absent: by what the line is for. 1 is no limit.',
  })
  kinshipLimit?: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Broods to make; absent: by what the line is for.',
  })
  broods?: number | null;

  @Field(() => [ID], { nullable: true, description: 'Fish that must be in a pair.' })
  mustFishIds?: string[] | null;

  @Field(() => [ID], { nullable: true, description: 'Fish that must not be in any pair.' })
  mustNotFishIds?: string[] | null;

  @Field(() => [PairOfFishInput], { nullable: true, description: 'Pairs that must be made.' })
  mustPairs?: PairOfFishInput[] | null;

  @Field(() => [PairOfFishInput], { nullable: true, description: 'Pairs that must not be made.' })
  mustNotPairs?: PairOfFishInput[] | null;
}

@InputType({ description: 'Pairs that are adopted together for a line.' })
export class AdoptRoundInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => Int, {
    description:
      'Version of what the line is for that they were proposed for; 0 when none was said.',
  })
  expectedPurposeVersion: number;

  @Field(() => DateScalar, { description: 'Day of the plan.' })
  plannedOn: string;

  @Field(() => [PairOfFishInput], { description: 'The pairs, each for one brood.' })
  pairs: PairOfFishInput[];

  @Field(() => Float, {
    nullable: true,
    description: 'Highest mean kinship that was allowed; absent: no limit.',
  })
  kinshipLimit?: number | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description:
      'Plans them in spite of warnings that ask for confirmation, such as a fish that is too young or rests.',
  })
  confirmed?: boolean | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}
