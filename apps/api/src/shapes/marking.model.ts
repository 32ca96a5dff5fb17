import type { Heads, MarkingKind } from '@linewright/pictures';
import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';

export const MarkingKindEnum = {
  SPREAD: 'spread',
  LENGTH: 'length',
  COUNT: 'count',
  COLOUR: 'colour',
} as const satisfies Record<string, MarkingKind>;

registerEnumType(MarkingKindEnum, {
  name: 'MarkingKind',
  description: 'What is measured on a picture.',
  valuesMap: {
    SPREAD: { description: 'The angle between the outermost rays of the tail, in degrees.' },
    LENGTH: { description: 'A length, in millimetres, by something of known length beside it.' },
    COUNT: { description: 'How many there are, one tap each.' },
    COLOUR: { description: 'How much of an outlined part is of a colour, in per cent.' },
  },
});

export const HeadsEnum = { LEFT: 'left', RIGHT: 'right' } as const satisfies Record<string, Heads>;

registerEnumType(HeadsEnum, {
  name: 'Heads',
  description: 'Where the head of a fish points in a picture.',
  valuesMap: {
    LEFT: { description: 'To the left.' },
    RIGHT: { description: 'To the right.' },
  },
});

@ObjectType('PicturePoint', { description: 'A place in a picture, in pixels of the kept picture.' })
export class PointModel {
  @Field(() => Float, { description: 'Pixels from the left.' })
  x: number;

  @Field(() => Float, { description: 'Pixels from the top.' })
  y: number;
}

@ObjectType('PictureScale', { description: 'A length in the picture that was known.' })
export class PictureScaleModel {
  @Field(() => PointModel, { description: 'Where it begins.' })
  from: PointModel;

  @Field(() => PointModel, { description: 'Where it ends.' })
  to: PointModel;

  @Field(() => Float, { description: 'How long it is, in millimetres.' })
  millimetres: number;
}

@ObjectType('PictureColour', { description: 'A colour that was looked for in a picture.' })
export class PictureColourModel {
  @Field(() => PointModel, { description: 'Where the picture has it.' })
  at: PointModel;

  @Field(() => Float, { description: 'How far from it still counted (ΔE*ab of 1976).' })
  tolerance: number;
}

@ObjectType('Marking', {
  description: 'What was marked on a picture: enough to work the figure out again.',
})
export class MarkingModel {
  @Field(() => ID, { description: 'The picture.' })
  photoId: string;

  @Field(() => MarkingKindEnum, { description: 'What was measured.' })
  kind: MarkingKind;

  @Field(() => [PointModel], { description: 'The points, in their order.' })
  points: PointModel[];

  @Field(() => HeadsEnum, { nullable: true, description: 'Of a spread: where the head points.' })
  heads: Heads | null;

  @Field(() => PictureScaleModel, { nullable: true, description: 'Of a length.' })
  scale: PictureScaleModel | null;

  @Field(() => PictureColourModel, { nullable: true, description: 'Of colour.' })
  colour: PictureColourModel | null;

  @Field(() => Boolean, {
    description: 'Whether the fish stood side on, as whoever marked it said.',
  })
  flat: boolean;
}

@ObjectType('MarkingError', {
  description: 'How far markings of one picture lie apart, from pictures marked twice or more.',
})
export class MarkingErrorModel {
  @Field(() => Float, { description: "Standard deviation of one marking, in the trait's unit." })
  deviation: number;

  @Field(() => Float, {
    description: 'Below this lie 95 in 100 differences of two markings of one picture.',
  })
  repeatability: number;

  @Field(() => Int, { description: 'Pictures marked twice or more.' })
  pictures: number;

  @Field(() => Int, { description: 'Markings of these.' })
  markings: number;

  @Field(() => Int, { description: 'Of these pictures, those marked by two people or more.' })
  byTwoPeople: number;
}
