import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { connectionOf } from '../graphql/connection.js';
import { Sex, SpawnStage } from '../graphql/enums.js';
import { RecordModel } from '../shapes/record.model.js';
import {
  HandOverEnd,
  HandOverKind,
  HandOverSide,
  HandOverState,
  LoanReturn,
} from './hand-over.enums.js';

@ObjectType('HandOver', {
  description: 'One fish handed from one person to another; it moves once both have confirmed.',
})
export class HandOverModel extends RecordModel {
  /** Loaded as `fish`, `from` and `to`. */
  fishId: string;
  fromId: string;
  toId: string | null;
  laterSpawnsAgreed: boolean;
  /** Loaded as `request`. */
  requestId: string | null;

  @Field(() => ID, { description: 'Fish that were offered together have it alike.' })
  groupId: string;

  @Field(() => HandOverKind, { description: 'Given, sold or lent.' })
  kind: HandOverKind;

  @Field(() => HandOverState, { description: 'How far it is.' })
  state: HandOverState;

  @Field(() => HandOverSide, { description: 'Where whoever asks stands in it.' })
  side: HandOverSide;

  @Field(() => String, { description: 'The receiver, as the giver named them.' })
  toName: string;

  @Field(() => DateScalar, { description: 'When it was offered.' })
  offeredOn: string;

  @Field(() => DateScalar, { nullable: true, description: 'Of a loan: when it is to be back.' })
  backOn: string | null;

  @Field(() => String, { nullable: true, description: 'The giver’s words.' })
  word: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'What the giver knows of its health.',
  })
  healthNote: string | null;

  @Field(() => Boolean, {
    description: 'Whether the giver sees that it spawned afterwards: parents, day and counts.',
  })
  laterSpawnsSeen: boolean;

  @Field(() => Boolean, { description: 'Whether its scores go along.' })
  withScores: boolean;

  @Field(() => Boolean, { description: 'Whether its photos go along.' })
  withPhotos: boolean;

  @Field(() => Boolean, { description: 'Whether notes on it go along.' })
  withNotes: boolean;

  @Field(() => String, { description: 'Its tag when it was offered.' })
  tag: string;

  @Field(() => Sex, { description: 'Its sex as recorded when it was offered.' })
  sex: Sex;

  @Field(() => DateScalar, { nullable: true, description: 'Its day of hatching.' })
  hatchDate: string | null;

  @Field(() => String, { nullable: true, description: 'Code of its line when it was offered.' })
  lineCode: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'When the receiver answered.' })
  answeredOn: string | null;

  @Field(() => String, { nullable: true, description: 'The receiver’s words.' })
  answerWord: string | null;

  @Field(() => DateScalar, {
    nullable: true,
    description: 'Last day of the quarantine that the receiver set.',
  })
  quarantineUntil: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'When it moved.' })
  movedOn: string | null;

  @Field(() => LoanReturn, {
    nullable: true,
    description: 'What the borrower says of the end of the loan.',
  })
  returnAs: LoanReturn | null;

  @Field(() => DateScalar, { nullable: true, description: 'The day that they said.' })
  returnSaidOn: string | null;

  @Field(() => String, { nullable: true, description: 'The borrower’s words.' })
  returnWord: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'When it came to its end.' })
  endedOn: string | null;

  @Field(() => HandOverEnd, { nullable: true, description: 'How.' })
  endedAs: HandOverEnd | null;
}

@ObjectType('HandOverConnection', { description: 'One page of hand-overs.' })
export class HandOverConnectionModel extends connectionOf(
  HandOverModel,
  'HandOver',
  'hand-overs',
) {}

@ObjectType('LaterSpawnCount', { description: 'One count of such a spawn.' })
export class LaterSpawnCountModel {
  @Field(() => SpawnStage, { description: 'Of what.' })
  stage: SpawnStage;

  @Field(() => DateScalar, { description: 'When.' })
  countedOn: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;
}

@ObjectType('LaterSpawn', {
  description: 'A spawn of a fish that was handed over, as far as its giver is told of it.',
})
export class LaterSpawnModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => DateScalar, { nullable: true, description: 'When it spawned, or hatched.' })
  day: string | null;

  @Field(() => String, { nullable: true, description: 'Tag of the sire.' })
  sireTag: string | null;

  @Field(() => String, { nullable: true, description: 'Tag of the dam.' })
  damTag: string | null;

  @Field(() => Boolean, { description: 'True when nothing came of it.' })
  failed: boolean;

  @Field(() => [LaterSpawnCountModel], { description: 'What was counted, the earliest first.' })
  counts: LaterSpawnCountModel[];
}
