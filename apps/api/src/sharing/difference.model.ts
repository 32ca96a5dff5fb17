import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';
import { recordKinds, type RecordKind } from '../database/record-kind.js';
import { connectionOf } from '../graphql/connection.js';
import '../graphql/enums.js';

@ObjectType('DifferenceValue', { description: 'A field of a version.' })
export class DifferenceValueModel {
  @Field(() => String, { description: 'The field.' })
  field: string;

  @Field(() => String, { nullable: true, description: 'Its value as text; null for none.' })
  value: string | null;
}

@ObjectType('DifferenceVersion', {
  description: 'One of the values that a part of a record was given in different places.',
})
export class DifferenceVersionModel {
  @Field(() => String, { description: 'Give it as `version` to choose it.' })
  key: string;

  @Field(() => [DifferenceValueModel], { description: 'Its fields.' })
  values: DifferenceValueModel[];

  @Field(() => Boolean, { description: 'Whether it is the one shown here.' })
  here: boolean;

  @Field(() => [String], { description: 'Whose installs gave it, as far as known.' })
  from: string[];
}

@ObjectType('Difference', {
  description: 'Fields of a record, of one meaning, that were changed in several places at once.',
})
export class DifferenceModel {
  @Field(() => String, { description: 'Name of the part: the first of its fields.' })
  part: string;

  @Field(() => [DifferenceVersionModel], {
    description: 'What it may be; the one shown here first.',
  })
  versions: DifferenceVersionModel[];
}

@ObjectType('RecordDifferences', {
  description: 'A record of which several installs say different things.',
})
export class RecordDifferencesModel {
  @Field(() => recordKinds, { description: 'Kind of the record.' })
  recordKind: RecordKind;

  @Field(() => ID, { description: 'Its id, the same in every install.' })
  recordId: string;

  @Field(() => String, { description: 'The name people know it by.' })
  label: string;

  @Field(() => [DifferenceModel], { description: 'What waits for a decision.' })
  differences: DifferenceModel[];
}

@ObjectType('RecordDifferencesConnection', { description: 'One page of records to decide on.' })
export class RecordDifferencesConnectionModel extends connectionOf(
  RecordDifferencesModel,
  'RecordDifferences',
  'records to decide on',
) {}

@InputType({ description: 'A decision between what several installs say.' })
export class DecideDifferenceInput {
  @Field(() => ID, { description: 'The record.' })
  recordId: string;

  @Field(() => String, { description: 'The part of it.' })
  part: string;

  @Field(() => String, { description: 'Key of the version that holds from now on.' })
  version: string;
}
