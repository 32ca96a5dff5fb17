import { Field, Float, ID, InputType, Int, IntersectionType, PickType } from '@nestjs/graphql';
import { revisionOf } from '../graphql/correction.js';
import { SenderId } from '../graphql/sent.js';
import { AmmoniaUnit, NitrogenForm } from '../shapes/water.enums.js';

@InputType({ description: 'What was measured; give nothing for what was not.' })
export class WaterFiguresInput {
  @Field(() => Float, { nullable: true, description: 'Total ammonia as the kit prints it, mg/L.' })
  totalAmmonia?: number | null;

  @Field(() => AmmoniaUnit, {
    nullable: true,
    description: 'What that figure counts; needed with it.',
  })
  ammoniaUnit?: AmmoniaUnit | null;

  @Field(() => Float, { nullable: true, description: 'pH.' })
  pH?: number | null;

  @Field(() => Float, { nullable: true, description: 'Degrees Celsius.' })
  celsius?: number | null;

  @Field(() => Float, { nullable: true, description: 'Nitrite, mg/L.' })
  nitrite?: number | null;

  @Field(() => NitrogenForm, { nullable: true, description: 'What the nitrite figure counts.' })
  nitriteForm?: NitrogenForm | null;

  @Field(() => Float, { nullable: true, description: 'Nitrate, mg/L.' })
  nitrate?: number | null;

  @Field(() => NitrogenForm, { nullable: true, description: 'What the nitrate figure counts.' })
  nitrateForm?: NitrogenForm | null;

  @Field(() => String, { nullable: true, description: 'Which kit, and how it was read.' })
  kit?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({ description: 'A new reading, of a spawn’s water or of a named vessel’s.' })
export class RecordWaterInput {
  @SenderId()
  id?: string | null;

  @Field(() => ID, { nullable: true, description: 'The spawn, or else give a vessel.' })
  spawnId?: string | null;

  @Field(() => String, { nullable: true, description: 'The vessel, or else give a spawn.' })
  vessel?: string | null;

  @Field(() => Date, { description: 'When the water was taken.' })
  takenAt: Date;

  @Field(() => WaterFiguresInput, { description: 'What was measured.' })
  figures: WaterFiguresInput;
}

@InputType({ description: 'Corrects a reading: its figures are replaced by these.' })
export class CorrectWaterInput extends IntersectionType(
  PickType(RecordWaterInput, ['takenAt', 'figures'] as const),
  revisionOf('reading'),
) {}

@InputType({ description: 'By what readings are judged from now on.' })
export class WaterRuleInput {
  @Field(() => Float, { description: 'Limit for un-ionised ammonia, mg/L.' })
  limit: number;

  @Field(() => AmmoniaUnit, { description: 'What the limit counts.' })
  limitUnit: AmmoniaUnit;

  @Field(() => Int, { description: 'Hours for which a reading counts, 1 to 720.' })
  trustHours: number;

  @Field(() => Float, { nullable: true, description: 'Total ammonia of the new water, mg/L as N.' })
  sourceTotalAsN?: number | null;

  @Field(() => Float, { nullable: true, description: 'pH of the new water.' })
  sourcePH?: number | null;

  @Field(() => Float, { nullable: true, description: 'Its temperature, °C.' })
  sourceCelsius?: number | null;
}
