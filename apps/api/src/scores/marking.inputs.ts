import type { Heads, MarkingKind, PictureScale, Point } from '@linewright/pictures';
import { Field, Float, ID, InputType } from '@nestjs/graphql';
import { IdSentOnce } from '../graphql/sent.js';
import { HeadsEnum, MarkingKindEnum } from '../shapes/marking.model.js';

@InputType({ description: 'A place in a picture, in pixels of the kept picture.' })
export class PointInput implements Point {
  @Field(() => Float, { description: 'Pixels from the left.' })
  x: number;

  @Field(() => Float, { description: 'Pixels from the top.' })
  y: number;
}

@InputType({ description: 'A length in the picture that is known.' })
export class PictureScaleInput implements PictureScale {
  @Field(() => PointInput, { description: 'Where it begins.' })
  from: PointInput;

  @Field(() => PointInput, { description: 'Where it ends.' })
  to: PointInput;

  @Field(() => Float, { description: 'How long it is, in millimetres.' })
  millimetres: number;
}

@InputType({ description: 'A colour looked for in a picture.' })
export class PictureColourInput {
  @Field(() => PointInput, { description: 'Where the picture has it.' })
  at: PointInput;

  @Field(() => Float, { description: 'How far from it still counts (ΔE*ab of 1976).' })
  tolerance: number;
}

@InputType({ description: 'What was marked on a picture.' })
export class MarkingInput {
  @Field(() => HeadsEnum, { nullable: true, description: 'Of a spread: where the head points.' })
  heads?: Heads | null;

  @Field(() => MarkingKindEnum, { description: 'What is measured.' })
  kind: MarkingKind;

  @Field(() => [PointInput], {
    description:
      'Of a spread the base of the tail, its upper and its lower ray; of a length the points along it; of a count one each; of colour the outline.',
  })
  points: PointInput[];

  @Field(() => PictureScaleInput, { nullable: true, description: 'Of a length.' })
  scale?: PictureScaleInput | null;

  @Field(() => PictureColourInput, { nullable: true, description: 'Of colour.' })
  colour?: PictureColourInput | null;

  @Field(() => Boolean, { description: 'Whether the fish stands side on in the picture.' })
  flat: boolean;
}

@InputType({ description: 'Scores a trait by what was marked on a picture of the fish.' })
export class ScoreFromPictureInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The picture; its day is that of the score.' })
  photoId: string;

  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => MarkingInput, { description: 'What was marked.' })
  marking: MarkingInput;

  @Field(() => String, {
    nullable: true,
    description: 'Who marked it; the person signed in when absent.',
  })
  scorer?: string | null;
}
