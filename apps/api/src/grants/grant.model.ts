import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';
import { PersonModel } from '../accounts/session.model.js';
import { GrantLevel } from '../graphql/enums.js';
import { LineModel } from '../shapes/line.model.js';

@ObjectType('LineGrant', { description: 'What a partner may see and do of a line.' })
export class LineGrantModel {
  /** Loaded as `person`. */
  accountId: string;
  /** Loaded as `line`. */
  lineId: string;

  @Field(() => PersonModel, { description: 'The partner.' })
  person?: PersonModel;

  @Field(() => LineModel, { description: 'The line.' })
  line?: LineModel;

  @Field(() => GrantLevel, { description: 'How far they may go.' })
  level: GrantLevel;

  @Field(() => Boolean, { description: 'Whether they see scores and looks on score sheets.' })
  scores: boolean;

  @Field(() => Boolean, { description: 'Whether they see photos.' })
  photos: boolean;

  @Field(() => Boolean, { description: 'Whether they read notes, reasons and captions.' })
  notes: boolean;

  @Field(() => Boolean, { description: 'Whether they see care and water readings.' })
  water: boolean;

  @Field(() => Boolean, { description: 'Whether they see with whom a fish swims.' })
  place: boolean;

  @Field(() => Boolean, { description: 'Whether they see what was paid, asked and got for fish.' })
  prices: boolean;

  @Field(() => Boolean, {
    description: 'Whether ancestors outside of the line are named; their records stay hidden.',
  })
  ancestors: boolean;

  @Field(() => Date, { description: 'Since when.' })
  grantedAt: Date;
}

@InputType({ description: 'What a partner shall see and do of a line; what is false is hidden.' })
export class GrantLineInput {
  @Field(() => ID, { description: 'The partner.' })
  personId: string;

  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => GrantLevel, { description: 'How far they may go.' })
  level: GrantLevel;

  @Field(() => Boolean, { description: 'Scores and looks on score sheets.' })
  scores: boolean;

  @Field(() => Boolean, { description: 'Photos.' })
  photos: boolean;

  @Field(() => Boolean, { description: 'Notes, reasons and captions.' })
  notes: boolean;

  @Field(() => Boolean, { description: 'Care and water readings.' })
  water: boolean;

  @Field(() => Boolean, { description: 'With whom a fish swims.' })
  place: boolean;

  @Field(() => Boolean, {
    defaultValue: false,
    description: 'What was paid, asked and got for fish.',
  })
  prices: boolean;

  @Field(() => Boolean, {
    defaultValue: false,
    description: 'Names of ancestors outside of the line, which are drawn without them otherwise.',
  })
  ancestors: boolean;
}
