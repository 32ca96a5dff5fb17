import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { PersonModel } from '../accounts/session.model.js';
import { connectionOf } from '../graphql/connection.js';
import { IdSentOnce } from '../graphql/sent.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('Comment', { description: 'What somebody said of a fish or a spawn.' })
export class CommentModel extends RecordModel {
  @Field(() => String, { description: 'In their words.' })
  words: string;

  @Field(() => Date, { description: 'When it was written.' })
  writtenAt: Date;

  @Field(() => Boolean, { description: 'True for your own, which you may correct and withdraw.' })
  mine: boolean;

  @Field(() => PersonModel, { description: 'Who wrote it.' })
  person?: PersonModel;

  /** Loaded as `person`. */
  personId: string;
}

@ObjectType('CommentConnection', { description: 'One page of comments.' })
export class CommentConnectionModel extends connectionOf(CommentModel, 'Comment', 'comments') {}

@InputType({ description: 'A comment on a fish or on a spawn.' })
export class AddCommentInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { nullable: true, description: 'The fish; absent for a spawn.' })
  fishId?: string | null;

  @Field(() => ID, { nullable: true, description: 'The spawn; absent for a fish.' })
  spawnId?: string | null;

  @Field(() => String, { description: 'In your words.' })
  words: string;
}

@InputType({ description: 'Corrects a comment of your own.' })
export class CorrectCommentInput {
  @Field(() => ID, { description: 'The comment.' })
  id: string;

  @Field(() => Int, { description: 'Revision it was read at; a newer one is an error.' })
  revision: number;

  @Field(() => String, { description: 'In your words.' })
  words: string;
}
