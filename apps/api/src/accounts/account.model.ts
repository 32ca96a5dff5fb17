import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';
import { AccountRole } from '../graphql/enums.js';
import { PersonModel } from './session.model.js';

@ObjectType('Account', { description: 'Somebody who may sign in here, or was invited to.' })
export class AccountModel {
  @Field(() => PersonModel, { description: 'Who it is.' })
  person: PersonModel;

  @Field(() => AccountRole, { description: 'What they may do.' })
  role: AccountRole;

  @Field(() => Date, {
    nullable: true,
    description: 'Until when the link that was sent opens; null when none is open.',
  })
  invitedUntil: Date | null;

  @Field(() => Boolean, { description: 'True once they have a password of their own.' })
  joined: boolean;

  @Field(() => Boolean, {
    description:
      'True where an install of their own is paired with this one: what they see goes there.',
  })
  paired: boolean;

  @Field(() => Date, {
    nullable: true,
    description: 'When a browser of theirs was last here; null when none is signed in.',
  })
  lastSeen: Date | null;
}

@ObjectType('NewInvitation', { description: 'A link that lets somebody in once.' })
export class NewInvitationModel {
  @Field(() => AccountModel, { description: 'Whose it is.' })
  account: AccountModel;

  @Field(() => String, {
    description: 'What follows the address of this install. It is told only now.',
  })
  path: string;

  @Field(() => Date, { description: 'Until when it opens.' })
  expiresAt: Date;
}

@ObjectType('Invitation', { description: 'What whoever opened a link is asked to join.' })
export class InvitationModel {
  @Field(() => String, { description: 'Name under which they will sign in.' })
  name: string;

  @Field(() => String, { description: 'Who keeps the records here.' })
  ownerName: string;

  @Field(() => Date, { description: 'Until when the link opens.' })
  expiresAt: Date;
}

@InputType({ description: 'Who is invited, and as what.' })
export class InvitePersonInput {
  @Field(() => String, {
    description: 'Name under which they sign in; it stands beside what they record.',
  })
  name: string;

  @Field(() => AccountRole, { description: 'Of the household, or a partner.' })
  role: AccountRole;

  @Field(() => ID, {
    nullable: true,
    description: 'A person on record who has no account yet; absent for somebody new.',
  })
  personId?: string | null;
}

@InputType({ description: 'What whoever was invited gives.' })
export class AcceptInvitationInput {
  @Field(() => String, { description: 'The token of the link.' })
  token: string;

  @Field(() => String, { description: 'Password, at least 10 characters.' })
  password: string;
}

@ObjectType('OpenSession', { description: 'A browser in which you are signed in.' })
export class OpenSessionModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Browser and system; empty when it does not say.' })
  device: string;

  @Field(() => Date, { description: 'When it was opened.' })
  openedAt: Date;

  @Field(() => Date, { description: 'When it was last here, to some minutes.' })
  seenAt: Date;

  @Field(() => Boolean, { description: 'True for the browser that asks.' })
  current: boolean;
}
