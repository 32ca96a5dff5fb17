import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { RecordModel } from '../shapes/record.model.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { PhotoSubject } from './photo-subject.js';

@ObjectType('Photo', {
  description:
    'A picture of something on record. Sent by PUT /photos/ID; kept upright and without metadata. A withdrawn one is no longer served.',
})
export class PhotoModel extends RecordModel {
  @Field(() => PhotoSubject, { description: 'What kind of record it shows.' })
  subjectKind: PhotoSubject;

  @Field(() => ID, { description: 'Id of that record.' })
  subjectId: string;

  @Field(() => String, { description: 'Where the picture is, on this server; needs the session.' })
  path: string;

  @Field(() => String, { description: 'Where its thumbnail is.' })
  smallPath: string;

  @Field(() => String, { description: 'Where it is smaller still, for a row of a list.' })
  tinyPath: string;

  @Field(() => DateScalar, { nullable: true, description: 'Day it was taken, when known.' })
  takenOn: string | null;

  @Field(() => Date, { description: 'When it was added.' })
  addedAt: Date;

  @Field(() => String, { nullable: true, description: 'What it shows.' })
  caption: string | null;

  @Field(() => String, { description: 'image/jpeg, image/png or image/webp.' })
  mediaType: string;

  @Field(() => Int, { description: 'Size of the kept file.' })
  bytes: number;

  @Field(() => Int, { description: 'Pixels across.' })
  width: number;

  @Field(() => Int, { description: 'Pixels down.' })
  height: number;

  @Field(() => String, { description: 'SHA-256 of the kept file.' })
  sha256: string;
}
