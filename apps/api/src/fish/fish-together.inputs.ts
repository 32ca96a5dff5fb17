import { Field, ID, InputType, Int } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { Disposition } from '../graphql/enums.js';

@InputType({ description: 'One of several chosen fish.' })
export class ChosenFishInput {
  @Field(() => ID, { description: 'Id of the fish.' })
  id: string;

  @Field(() => Int, { description: 'Revision the fish was read at; a newer one is in the way.' })
  revision: number;
}

@InputType({ description: 'A line for several fish.' })
export class LineTogetherInput {
  @Field(() => ID, { nullable: true, description: 'The line; null for none.' })
  lineId?: string | null;
}

@InputType({
  description:
    'One decision about several fish; each keeps the place it swims in as after a single decision.',
})
export class DecideTogetherInput {
  @Field(() => Disposition, { description: 'The decision.' })
  disposition: Disposition;

  @Field(() => DateScalar, { description: 'The day.' })
  on: string;

  @Field(() => String, { nullable: true, description: 'Why; needed for a cull.' })
  reason?: string | null;
}

@InputType({ description: 'Withdraws several fish with one reason.' })
export class WithdrawTogetherInput {
  @Field(() => String, { description: 'Why.' })
  reason: string;
}

@InputType({
  description: 'One act for several fish: give exactly one of `line`, `decision` and `withdrawal`.',
})
export class ChangeFishTogetherInput {
  @Field(() => ID, {
    nullable: true,
    description: 'UUID of the act, made by the sender; sending it twice does it once.',
  })
  id?: string | null;

  @Field(() => [ChosenFishInput], { description: 'The fish, each once.' })
  fish: ChosenFishInput[];

  @Field(() => LineTogetherInput, { nullable: true, description: 'Move them to a line.' })
  line?: LineTogetherInput | null;

  @Field(() => DecideTogetherInput, { nullable: true, description: 'Decide about them.' })
  decision?: DecideTogetherInput | null;

  @Field(() => WithdrawTogetherInput, { nullable: true, description: 'Withdraw them.' })
  withdrawal?: WithdrawTogetherInput | null;
}
