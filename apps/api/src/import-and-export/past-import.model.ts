import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { recordKinds, type RecordKind } from '../database/record-kind.js';
import { connectionOf } from '../graphql/connection.js';

@ObjectType('PastImport', {
  description: 'A pedigree file that was taken in, with the number of records it made.',
})
export class PastImportModel {
  @Field(() => ID, { description: 'Its UUID.' })
  id: string;

  @Field(() => String, {
    nullable: true,
    description: 'Name of the file; empty for imports made before names were noted.',
  })
  fileName: string | null;

  @Field(() => String, { description: 'Who took it in.' })
  by: string;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => Int, { description: 'Fish it made.' })
  fish: number;

  @Field(() => Int, { description: 'Spawns it made.' })
  spawns: number;

  @Field(() => Int, { description: 'Lines it made.' })
  lines: number;

  @Field(() => Int, { description: 'Scores it made.' })
  scores: number;

  @Field(() => Int, { description: 'Traits it made.' })
  traits: number;

  @Field(() => Date, { nullable: true, description: 'When it was taken back; empty if it stands.' })
  takenBackAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Who took it back.' })
  takenBackBy: string | null;

  @Field(() => String, { nullable: true, description: 'Why it was taken back.' })
  takenBackReason: string | null;
}

@ObjectType('PastImportConnection', { description: 'One page of the past imports.' })
export class PastImportConnectionModel extends connectionOf(
  PastImportModel,
  'PastImport',
  'past imports',
) {}

@ObjectType('RestingRecords', {
  description: 'Later records of one kind that depend on records of an import.',
})
export class RestingRecordsModel {
  @Field(() => recordKinds, { description: 'Their kind.' })
  kind: RecordKind;

  @Field(() => Int, { description: 'How many there are.' })
  count: number;

  @Field(() => [String], {
    description: 'Tags, codes or names by which they are found, at most 12.',
  })
  names: string[];
}

@ObjectType('TakeBackPreview', {
  description: 'What taking an import back would meet. Nothing is written.',
})
export class TakeBackPreviewModel {
  @Field(() => ID, { description: 'The import.' })
  id: string;

  @Field(() => Boolean, { description: 'True when it can be taken back now.' })
  ready: boolean;

  @Field(() => [RestingRecordsModel], {
    description: 'Later records in use that depend on it, by kind: withdraw them first.',
  })
  resting: RestingRecordsModel[];

  @Field(() => Int, {
    description: 'Records of the import that were changed since: they are withdrawn too.',
  })
  changed: number;

  @Field(() => [String], {
    description: 'Tags, codes or names of the changed ones, at most 12.',
  })
  changedNames: string[];
}
