import { Field, InputType } from '@nestjs/graphql';
import { revisionOf } from '../graphql/correction.js';
import { DateScalar } from '../graphql/date.scalar.js';

@InputType({ description: 'Corrects what is said about a picture.' })
export class CaptionPhotoInput extends revisionOf('picture') {
  @Field(() => String, { nullable: true, description: 'What it shows.' })
  caption?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day it was taken.' })
  takenOn?: string | null;
}
