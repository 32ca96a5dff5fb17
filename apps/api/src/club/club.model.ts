import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { PersonModel } from '../accounts/session.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';

@ObjectType('ClubConsent', { description: 'What of a line the club may know.' })
export class ClubConsentModel {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => Boolean, {
    description:
      'Everybody with an account here sees its name, whose it is, how many fish are in use, its looks, and its kinship with other lines.',
  })
  shown: boolean;

  @Field(() => Boolean, {
    description: 'Its counted broods and its scores go into figures over several keepers.',
  })
  counted: boolean;
}

@InputType({ description: 'What of a line the club may know from now on.' })
export class ClubConsentInput {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => Boolean, { description: 'Shown to everybody with an account here.' })
  shown: boolean;

  @Field(() => Boolean, { description: 'Counted in figures over several keepers.' })
  counted: boolean;
}

@ObjectType('ClubLine', { description: 'A line as the club sees it; no single fish is told.' })
export class ClubLineModel {
  @Field(() => ID, { description: 'Id of the line.' })
  id: string;

  @Field(() => String, { description: 'Its code.' })
  code: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => PersonModel, { description: 'Whose line it is.' })
  keeper: PersonModel;

  @Field(() => Boolean, { description: 'True for a line of your own.' })
  mine: boolean;

  @Field(() => Boolean, { description: 'False for the line asked for where only you see it.' })
  shown: boolean;

  @Field(() => Int, { description: 'Fish in use.' })
  inUse: number;

  @Field(() => [String], { description: 'Looks noted at three or more of its fish in use.' })
  looks: string[];

  @Field(() => [Float], {
    nullable: 'items',
    description:
      'Mean coancestry of its fish in use with those of each line of the list, in their order: the F that young of such a cross are expected to have. Null where a line has no fish in use.',
  })
  kinship: (number | null)[];

  @Field(() => Boolean, {
    description: 'True where something behind its fish is of unknown origin: F is at least this.',
  })
  atLeast: boolean;
}

@ObjectType('ClubFounder', { description: 'What of a founder is left, line by line.' })
export class ClubFounderModel {
  @Field(() => NamedFishModel, {
    nullable: true,
    description: 'The founder, or the fish of which one parent is unknown; null: not shown to you.',
  })
  fish: NamedFishModel | null;

  @Field(() => Boolean, { description: 'True for the unknown parent of `fish`.' })
  unknownParent: boolean;

  @Field(() => [Float], {
    description: 'Expected share in the genes of the fish in use, line by line.',
  })
  shares: number[];

  @Field(() => [Float], {
    description:
      'Chance that at least one of its genes is still among the fish in use, line by line.',
  })
  chances: number[];

  @Field(() => ID, {
    nullable: true,
    description:
      'The one line that holds it with a chance of 1 in 20 or more; null: none, or several.',
  })
  onlyIn: string | null;
}

@ObjectType('Club', { description: 'What keepers on this server show each other.' })
export class ClubModel {
  @Field(() => [ClubLineModel], {
    description:
      'Lines that are shown, and the line asked for; the least related to the latter first.',
  })
  lines: ClubLineModel[];

  @Field(() => Int, { description: 'Shown lines that are not listed, since they are too many.' })
  linesLeftOut: number;

  @Field(() => [ClubFounderModel], {
    description: 'Founders, those that only one line holds first.',
  })
  founders: ClubFounderModel[];

  @Field(() => Int, { description: 'Founders that are not listed.' })
  foundersLeftOut: number;

  @Field(() => Int, { description: 'How many times genes were dropped for the chances.' })
  drops: number;
}
