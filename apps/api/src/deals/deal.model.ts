import { Field, Float, ID, InputType, ObjectType, registerEnumType } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { IdSentOnce } from '../graphql/sent.js';
import { RecordModel } from '../shapes/record.model.js';

export const FishDealKind = {
  BOUGHT: 'bought',
  ASKED: 'asked',
  SOLD: 'sold',
  GIVEN: 'given',
  SWAPPED: 'swapped',
} as const;
export type FishDealKind = (typeof FishDealKind)[keyof typeof FishDealKind];

registerEnumType(FishDealKind, {
  name: 'FishDealKind',
  description: 'How a fish came or went, or was offered.',
  valuesMap: {
    BOUGHT: { description: 'It was bought.' },
    ASKED: { description: 'It was offered at that price.' },
    SOLD: { description: 'It was sold.' },
    GIVEN: { description: 'It was given away, or came as a gift.' },
    SWAPPED: { description: 'It was swapped for something else.' },
  },
});

@ObjectType('FishDeal', {
  description:
    'What was paid, asked or got for a fish: a record of whoever did, which stays theirs when the fish goes to somebody else.',
})
export class FishDealModel extends RecordModel {
  @Field(() => FishDealKind, { description: 'How it came or went, or was offered.' })
  kind: FishDealKind;

  @Field(() => DateScalar, { description: 'Day.' })
  onDate: string;

  @Field(() => Float, {
    nullable: true,
    description:
      'Amount in the smallest unit of the currency (ISO 4217): 1250 of EUR is 12.50 euros. Empty when nothing was paid or it is not known.',
  })
  amount: number | null;

  @Field(() => String, { nullable: true, description: 'Code of the currency, by ISO 4217.' })
  currency: string | null;

  @Field(() => String, { nullable: true, description: 'From whom or to whom.' })
  withWhom: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => Boolean, {
    description: 'True for a record of whoever asks, which they may correct and withdraw.',
  })
  mine: boolean;
}

@InputType({ description: 'What was paid, asked or got for a fish.' })
export class RecordFishDealInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => FishDealKind, { description: 'How it came or went, or was offered.' })
  kind: FishDealKind;

  @Field(() => DateScalar, { description: 'Day.' })
  onDate: string;

  @Field(() => Float, {
    nullable: true,
    description: 'Amount in the smallest unit of the currency, a whole number; with its currency.',
  })
  amount?: number | null;

  @Field(() => String, {
    nullable: true,
    description: 'Three letters of ISO 4217, such as EUR; with an amount.',
  })
  currency?: string | null;

  @Field(() => String, { nullable: true, description: 'From whom or to whom.' })
  withWhom?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({
  description: 'Corrects what was paid, asked or got; absent fields stay, null clears.',
})
export class CorrectFishDealInput extends correctionOf(RecordFishDealInput, 'price', ['fishId']) {}
