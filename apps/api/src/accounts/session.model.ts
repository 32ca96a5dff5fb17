import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';
import { AccountRole } from '../graphql/enums.js';

@ObjectType('Person', {
  description:
    'Someone who keeps records: the owner of this install, or a partner met through a shared line.',
})
export class PersonModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Name as the person gave it.' })
  name: string;

  @Field(() => Boolean, { description: 'True for the owner of this install.' })
  here: boolean;
}

@ObjectType('Session', {
  description: 'Where this browser stands: signed in or not, and what is on offer.',
})
export class SessionModel {
  @Field(() => PersonModel, { nullable: true, description: 'The person signed in.' })
  person: PersonModel | null;

  @Field(() => AccountRole, {
    nullable: true,
    description: 'What the person signed in may do; null without one.',
  })
  role: AccountRole | null;

  @Field(() => Boolean, {
    description:
      'True while the owner looks at what the person named sees; nothing is changed then.',
  })
  looking: boolean;

  @Field(() => Boolean, {
    description:
      'True for the owner and their household: they alone define traits, score sheets and loci, and give and take files of lines.',
  })
  ofTheHouse: boolean;

  @Field(() => Boolean, { description: 'True while nobody has set a password or opened the demo.' })
  setUpNeeded: boolean;

  @Field(() => Boolean, {
    description:
      'True when setting up from here needs the code that the console of the server shows.',
  })
  codeNeeded: boolean;

  @Field(() => Boolean, {
    description: 'True when the demo scenario can be loaded or opened from here with one click.',
  })
  demoOffered: boolean;

  @Field(() => Boolean, { description: 'True while the records are the demo scenario.' })
  demoOpen: boolean;

  @Field(() => Boolean, { description: 'True when this browser holds a valid session.' })
  signedIn: boolean;

  @Field(() => Boolean, {
    description: 'True when the person signed in, or the owner where nobody is, has a password.',
  })
  hasPassword: boolean;

  @Field(() => Boolean, {
    description: 'True when the request comes from the machine the server runs on.',
  })
  loopback: boolean;
}

@InputType({ description: 'What the owner gives at first start.' })
export class SetUpInput {
  @Field(() => String, { description: 'Name of the person, shown on records and shared lines.' })
  personName: string;

  @Field(() => String, { description: 'Password, at least 10 characters.' })
  password: string;

  @Field(() => String, {
    nullable: true,
    description: 'The code that the console of the server shows; needed from another machine.',
  })
  code?: string | null;
}
