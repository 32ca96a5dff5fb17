import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import '../graphql/enums.js';
import { FieldChangeModel } from '../shapes/history.model.js';
import { recordKinds, type RecordKind } from '../database/record-kind.js';
import { MakerStanding } from './makers.js';
import { ShareOutcome } from './share-plan.js';

registerEnumType(ShareOutcome, {
  name: 'ShareOutcome',
  description: 'What becomes of a record of the file.',
  valuesMap: {
    ADDED: { description: 'Not recorded here before.' },
    UNCHANGED: { description: 'The same on both sides.' },
    UPDATED: { description: 'Changed by the partner only: theirs is taken.' },
    CONFLICT: {
      description:
        'Changed on both sides, or clashing with another record: shown, and not overwritten.',
    },
    KEPT_LOCAL: { description: 'Changed here only: ours stays.' },
  },
});

registerEnumType(MakerStanding, {
  name: 'MakerStanding',
  description: 'How well the maker of a line file is known here.',
  valuesMap: {
    OWN: { description: 'This install made it.' },
    PAIRED: { description: 'Signed by an install that was paired with this one.' },
    UNKNOWN: { description: 'Signed by an install that this one does not know.' },
    UNSIGNED: { description: 'An older file: nobody signed it, so anybody may have made it.' },
  },
});

@ObjectType('FileMaker', { description: 'Who made a line file.' })
export class FileMakerModel {
  @Field(() => MakerStanding, { description: 'How well they are known here.' })
  standing: MakerStanding;

  @Field(() => String, {
    description: 'Words of the key that signed it, to be compared with the maker; empty for none.',
  })
  words: string;
}

@ObjectType('ShareItem', { description: 'One record of the file.' })
export class ShareItemModel {
  @Field(() => recordKinds, { description: 'Kind of the record.' })
  recordKind: RecordKind;

  @Field(() => ID, { description: 'Its id, the same in every install.' })
  recordId: string;

  @Field(() => String, { description: 'The name people know it by.' })
  label: string;

  @Field(() => ShareOutcome, { description: 'What becomes of it.' })
  outcome: ShareOutcome;

  @Field(() => [FieldChangeModel], {
    description: 'Fields that differ: ours before, theirs after. For a clash: the two ids.',
  })
  changes: FieldChangeModel[];
}

@ObjectType('ShareReport', { description: "What a partner's line file brings." })
export class ShareReportModel {
  @Field(() => String, { description: 'Who sent it.' })
  senderName: string;

  @Field(() => FileMakerModel, { description: 'Who made the file.' })
  maker: FileMakerModel;

  @Field(() => String, { description: 'Code of the line.' })
  lineCode: string;

  @Field(() => String, { description: 'Name of the line.' })
  lineName: string;

  @Field(() => Int, { description: 'Records that are new here.' })
  added: number;

  @Field(() => Int, { description: "Records in which the partner's change is taken." })
  updated: number;

  @Field(() => Int, {
    description: 'Records that stay as they are: the same on both sides, or changed here only.',
  })
  unchanged: number;

  @Field(() => Int, {
    description: 'Records changed on both sides, or clashing: left as they are here.',
  })
  conflicts: number;

  @Field(() => [ShareItemModel], { description: 'Every record of the file, conflicts first.' })
  items: ShareItemModel[];

  @Field(() => Boolean, {
    description: 'True when the file was taken in, false for a look beforehand.',
  })
  applied: boolean;
}
