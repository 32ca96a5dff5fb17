import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { WithdrawalModel } from './history.model.js';

@ObjectType('Line', {
  description: 'A line: fish bred towards one goal, with a code that starts their tags.',
})
export class LineModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: "Short code, unique in one keeper's stock." })
  code: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { nullable: true, description: 'What the line is bred for.' })
  goal: string | null;

  @Field(() => Int, { description: 'Raised by one at each change.' })
  revision: number;

  @Field(() => WithdrawalModel, {
    nullable: true,
    description: 'Set when the record was withdrawn.',
  })
  withdrawn: WithdrawalModel | null;

  keeperId: string;
}

@InputType({ description: 'A new line.' })
export class CreateLineInput {
  @Field(() => ID, {
    nullable: true,
    description: 'UUID made by the sender; one is made when absent.',
  })
  id?: string;

  @Field(() => String, { description: 'Short code: letters, digits and hyphens.' })
  code: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { nullable: true, description: 'What the line is bred for.' })
  goal?: string | null;
}

@InputType({ description: 'Corrects a line; absent fields stay.' })
export class CorrectLineInput {
  @Field(() => ID, { description: 'Id of the line.' })
  id: string;

  @Field(() => Int, { description: 'Revision the form was opened at.' })
  revision: number;

  @Field(() => String, { nullable: true, description: 'Short code.' })
  code?: string | null;

  @Field(() => String, { nullable: true, description: 'Name.' })
  name?: string | null;

  @Field(() => String, { nullable: true, description: 'What the line is bred for.' })
  goal?: string | null;
}
