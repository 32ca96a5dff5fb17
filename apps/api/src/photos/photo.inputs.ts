import { Field, ID, InputType, Int } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';

@InputType({ description: 'Corrects what is said about a picture.' })
export class CaptionPhotoInput {
  @Field(() => ID, { description: 'The picture.' })
  id: string;

  @Field(() => Int, { description: 'Revision the form was opened at.' })
  revision: number;

  @Field(() => String, { nullable: true, description: 'What it shows.' })
  caption?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day it was taken.' })
  takenOn?: string | null;
}
