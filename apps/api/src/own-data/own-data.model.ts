import { Field, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { PersonModel } from '../accounts/session.model.js';

export const Afterwards = { HAND_OVER: 'hand_over', END: 'end' } as const;
export type Afterwards = (typeof Afterwards)[keyof typeof Afterwards];
registerEnumType(Afterwards, {
  name: 'Afterwards',
  description: 'What becomes of an install whose owner leaves.',
  valuesMap: {
    HAND_OVER: {
      description:
        'Somebody of the household becomes its owner. The records stay as they are, theirs from then on.',
    },
    END: { description: 'Everything in it is deleted, for everybody.' },
  },
});

@ObjectType('OwnTable', { description: 'One kind of what is recorded of whoever asks.' })
export class OwnTableModel {
  @Field(() => String, { description: 'What it is, in words.' })
  title: string;

  @Field(() => Int, { description: 'How many there are.' })
  count: number;
}

@ObjectType('BackupsHolding', {
  description: 'Backups of this install that hold what was recorded when they were made.',
})
export class BackupsHoldingModel {
  @Field(() => Int, { description: 'How many are where they were put.' })
  count: number;

  @Field(() => [String], { description: 'The folders they are in; told to the owner alone.' })
  folders: string[];
}

@ObjectType('OwnData', { description: 'What is recorded of whoever asks.' })
export class OwnDataModel {
  @Field(() => [OwnTableModel], { description: 'Everything that their file would hold, by kind.' })
  tables: OwnTableModel[];

  @Field(() => Int, { description: 'Photos that their file would hold.' })
  photos: number;

  @Field(() => String, { description: 'The name that would stand in place of theirs.' })
  pseudonym: string;

  @Field(() => BackupsHoldingModel, { description: 'Backups that would still hold it.' })
  backups: BackupsHoldingModel;

  @Field(() => [PersonModel], {
    description: 'To whom of the household the owner may hand the install; none for others.',
  })
  heirs: PersonModel[];

  @Field(() => Int, {
    description:
      'Others who may sign in, or whose install is paired with this one; 0 for others than the owner.',
  })
  others: number;
}

@InputType({ description: 'What is to be erased.' })
export class EraseOwnDataInput {
  @Field(() => String, { description: 'Your name, as it stands here, typed once more.' })
  confirm: string;

  @Field(() => Afterwards, {
    nullable: true,
    description: 'What becomes of the install; asked of its owner alone.',
  })
  afterwards?: Afterwards | null;

  @Field(() => ID, { nullable: true, description: 'Whose the install becomes, for HAND_OVER.' })
  heirId?: string | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'For END: whether backups that this install made are deleted as well.',
  })
  withBackups?: boolean | null;
}
