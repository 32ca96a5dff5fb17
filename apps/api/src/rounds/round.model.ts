import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { PairingModel } from '../pairing/pairing.model.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('RoundPair', { description: 'One pair of a round, and what was expected of it then.' })
export class RoundPairModel {
  @Field(() => PairingModel, { description: 'The planned pairing.' })
  pairing: PairingModel;

  @Field(() => Float, { description: 'Worth in points for one young kept, as told then.' })
  expectedWorth: number;

  @Field(() => Float, { description: 'F of the brood, as told then.' })
  expectedInbreeding: number;
}

@ObjectType('Round', {
  description: 'Pairs that were adopted together for a line, and what was expected of them then.',
})
export class RoundModel extends RecordModel {
  @Field(() => Int, {
    description: 'Version of what the line is for; 0 while nobody had said it.',
  })
  purposeVersion: number;

  @Field(() => DateScalar, { description: 'Day of the plan.' })
  plannedOn: string;

  @Field(() => Float, {
    nullable: true,
    description: 'Highest mean kinship of the parents that was allowed; null: no limit.',
  })
  kinshipLimit: number | null;

  @Field(() => Float, { description: 'Mean worth of its pairs, in points for one young kept.' })
  expectedWorth: number;

  @Field(() => Float, {
    description:
      'Mean kinship of the parents, each by its broods, themselves included; with those of the pairs that stood already.',
  })
  expectedKinship: number;

  @Field(() => Float, { description: 'Mean F of the broods.' })
  expectedInbreeding: number;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => String, { nullable: true, description: 'What was learnt from it.' })
  learnt: string | null;

  lineId: string;
  personId: string;
}

@ObjectType('RoundConnection', { description: 'One page of rounds.' })
export class RoundConnectionModel extends connectionOf(RoundModel, 'Round', 'rounds') {}
