import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { QrCodeModel } from '../graphql/qr-code.js';

@ObjectType('SecondStep', { description: 'A code that is asked for beside the password.' })
export class SecondStepModel {
  @Field(() => Date, { description: 'Since when.' })
  since: Date;

  @Field(() => Int, { description: 'Spare codes that are left.' })
  spareCodes: number;
}

@ObjectType('SecondStepOffer', {
  description: 'What a phone needs to show codes. It is told only now.',
})
export class SecondStepOfferModel {
  @Field(() => String, { description: 'The secret, base32, to type in by hand.' })
  secret: string;

  @Field(() => String, { description: 'The same as an address (otpauth).' })
  address: string;

  @Field(() => QrCodeModel, { description: 'That address, to be photographed.' })
  qr: QrCodeModel;
}

@ObjectType('Passkey', { description: 'A key on a device of yours, which signs in by itself.' })
export class PasskeyModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'How you call the device.' })
  name: string;

  @Field(() => Date, { description: 'When it was added.' })
  createdAt: Date;

  @Field(() => Date, { nullable: true, description: 'When it last signed in; null: never.' })
  usedAt: Date | null;
}

@ObjectType('PasskeyOffer', {
  description: 'What a device is asked, to be answered within minutes.',
})
export class PasskeyOfferModel {
  @Field(() => ID, { description: 'Names the question.' })
  id: string;

  @Field(() => String, {
    description:
      'JSON of the options that Web Authentication takes (WebAuthn Level 3, section 5.4.1 or 5.5.1).',
  })
  options: string;
}

@InputType({ description: 'What a device answered.' })
export class PasskeyAnswerInput {
  @Field(() => ID, { description: 'The question.' })
  id: string;

  @Field(() => String, {
    description:
      'JSON of the answer (WebAuthn Level 3: RegistrationResponseJSON or AuthenticationResponseJSON).',
  })
  answer: string;
}

@ObjectType('ProgramToken', { description: 'By which a program asks in your name.' })
export class ProgramTokenModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'For which program.' })
  name: string;

  @Field(() => Boolean, { description: 'False: it only reads.' })
  mayRecord: boolean;

  @Field(() => Date, { description: 'When it was made.' })
  createdAt: Date;

  @Field(() => Date, { description: 'When it ends.' })
  expiresAt: Date;

  @Field(() => Date, {
    nullable: true,
    description: 'When it was last used, to some minutes; null: never.',
  })
  usedAt: Date | null;
}

@ObjectType('NewProgramToken', { description: 'A token, told only now.' })
export class NewProgramTokenModel {
  @Field(() => String, { description: 'To be sent as "Authorization: Bearer ...".' })
  secret: string;

  @Field(() => ProgramTokenModel, { description: 'What is known of it later.' })
  token: ProgramTokenModel;
}

@InputType({ description: 'A token to make.' })
export class MakeTokenInput {
  @Field(() => String, { description: 'For which program.' })
  name: string;

  @Field(() => Boolean, { description: 'True to record and change as well; false to read only.' })
  mayRecord: boolean;

  @Field(() => Int, { description: 'Days until it ends, 1 to 366.' })
  days: number;
}

@ObjectType('WaysIn', { description: 'By what whoever asks may sign in beside a password.' })
export class WaysInModel {
  @Field(() => SecondStepModel, {
    nullable: true,
    description: 'The code that is asked for beside the password; null when none is.',
  })
  secondStep: SecondStepModel | null;

  @Field(() => [PasskeyModel], { description: 'The oldest first.' })
  passkeys: PasskeyModel[];

  @Field(() => [ProgramTokenModel], { description: 'Those that have not ended, the newest first.' })
  tokens: ProgramTokenModel[];
}
