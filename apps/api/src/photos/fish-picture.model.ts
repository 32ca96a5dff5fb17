import { Field, ID, ObjectType } from '@nestjs/graphql';
import { PhotoModel } from './photo.model.js';

@ObjectType('FishLook', { description: 'How a fish looks at a locus, as it was last seen.' })
export class FishLookModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Id of the phenotype in the locus.' })
  phenotype: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;
}

@ObjectType('FishPicture', { description: 'What there is to show of a fish beside its tag.' })
export class FishPictureModel {
  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => PhotoModel, {
    nullable: true,
    description: 'Its newest picture that may be seen; withdrawn ones are none.',
  })
  photo: PhotoModel | null;

  @Field(() => [FishLookModel], {
    description: 'What it was last seen to look like, one at most a locus, to draw it from.',
  })
  looks: FishLookModel[];
}
