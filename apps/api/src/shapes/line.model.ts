import { Field, InputType, ObjectType } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { SenderId } from '../graphql/sent.js';
import { RecordModel } from './record.model.js';

@ObjectType('Line', {
  description: 'A line: fish bred towards one goal, with a code that starts their tags.',
})
export class LineModel extends RecordModel {
  @Field(() => String, { description: "Short code, unique in one person's stock." })
  code: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { nullable: true, description: 'What the line is bred for.' })
  goal: string | null;

  personId: string;
}

@InputType({ description: 'A new line.' })
export class CreateLineInput {
  @SenderId()
  id?: string;

  @Field(() => String, { description: 'Short code: letters, digits and hyphens.' })
  code: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { nullable: true, description: 'What the line is bred for.' })
  goal?: string | null;
}

@InputType({ description: 'Corrects a line; absent fields stay.' })
export class CorrectLineInput extends correctionOf(CreateLineInput, 'line') {}
