import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { recordKinds, type RecordKind } from '../database/record-kind.js';
import { entryKinds, type EntryKind } from '../database/entry-kind.js';

@ObjectType('EntryChange', { description: 'What an entry did to one record.' })
export class EntryChangeModel {
  @Field(() => recordKinds, { description: 'Kind of the record.' })
  recordKind: RecordKind;

  @Field(() => ID, { description: 'Id of the record.' })
  recordId: string;

  @Field(() => Int, { description: 'Revision that the entry made.' })
  revision: number;
}

@ObjectType('ReceivedEntry', {
  description: "An entry made on a person's device that has arrived and was applied, once.",
})
export class ReceivedEntryModel {
  @Field(() => ID, { description: 'UUID made by the device.' })
  id: string;

  @Field(() => entryKinds, { description: 'What it is.' })
  kind: EntryKind;

  @Field(() => Date, { description: 'When it arrived.' })
  at: Date;

  @Field(() => [EntryChangeModel], {
    description: 'The records it changed; none when they said so already.',
  })
  changes: EntryChangeModel[];

  @Field(() => ID, { nullable: true, description: 'The later entry that took it back.' })
  undoneBy: string | null;
}

@InputType({ description: 'Takes back what one entry did, as a correction with its own history.' })
export class UndoEntryInput {
  @Field(() => ID, {
    description: 'UUID of this undoing, made by the sender; sending it twice undoes once.',
  })
  entryId: string;

  @Field(() => ID, { description: 'The entry to take back.' })
  undoes: string;

  @Field(() => String, { nullable: true, description: 'Why.' })
  reason?: string | null;
}
