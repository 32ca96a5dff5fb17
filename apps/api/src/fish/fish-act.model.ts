import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { FieldChangeModel } from '../shapes/history.model.js';

@ObjectType('FishAct', {
  description: 'One act for several fish. It can be taken back as a whole.',
})
export class FishActModel {
  @Field(() => ID, { description: 'UUID made by the sender.' })
  id: string;

  @Field(() => String, { description: 'What was done, in words.' })
  what: string;

  @Field(() => Int, { description: 'Fish that it changed.' })
  fishCount: number;

  @Field(() => String, { description: 'Who did it.' })
  by: string;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => Date, { nullable: true, description: 'When it was taken back; null if it stands.' })
  takenBackAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Who took it back.' })
  takenBackBy: string | null;
}

@ObjectType('FishActConnection', { description: 'One page of the acts for several fish.' })
export class FishActConnectionModel extends connectionOf(
  FishActModel,
  'FishAct',
  'acts for several fish',
) {}

@ObjectType('FishInTheWay', { description: 'A fish for which an act cannot be done, and why.' })
export class FishInTheWayModel {
  @Field(() => ID, { description: 'Id of the fish.' })
  id: string;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => String, { description: 'Why.' })
  why: string;
}

@ObjectType('FishChangePreview', { description: 'What an act would change of one fish.' })
export class FishChangePreviewModel {
  @Field(() => ID, { description: 'Id of the fish.' })
  id: string;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => [FieldChangeModel], {
    description: 'The fields that would change; none when it is so already.',
  })
  changes: FieldChangeModel[];
}

@ObjectType('FishActPreview', {
  description: 'What an act for several fish would do; nothing is saved.',
})
export class FishActPreviewModel {
  @Field(() => [FishChangePreviewModel], {
    description: 'The fish for which it can be done, by tag.',
  })
  fish: FishChangePreviewModel[];

  @Field(() => [FishInTheWayModel], {
    description: 'The fish for which it cannot be done, by tag; while there are any, none changes.',
  })
  inTheWay: FishInTheWayModel[];
}
