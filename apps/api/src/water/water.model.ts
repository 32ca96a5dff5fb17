import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { RecordModel } from '../shapes/record.model.js';
import { connectionOf } from '../graphql/connection.js';
import {
  AmmoniaUnit,
  ChangeOutcome,
  ChangeWarning,
  NitrogenForm,
  TrustState,
  WaterAlertKind,
  WaterStanding,
} from '../shapes/water.enums.js';

@ObjectType('UnionisedAmmonia', {
  description:
    'Un-ionised ammonia of a reading, with what it was computed from (Emerson et al. 1975).',
})
export class UnionisedAmmoniaModel {
  @Field(() => Float, { description: 'mg/L as NH3.' })
  asNH3: number;

  @Field(() => Float, { description: 'mg/L as N.' })
  asN: number;

  @Field(() => Float, { description: 'Total ammonia, mg/L as N, whatever unit the kit prints.' })
  totalAsN: number;

  @Field(() => Float, { description: 'Share of the total that is un-ionised, 0 to 1.' })
  share: number;

  @Field(() => Float, { description: 'pKa of ammonium at the temperature.' })
  pKa: number;

  @Field(() => Boolean, {
    description: 'True above 30 °C or outside pH 6 to 10: beyond the tables.',
  })
  beyondTables: boolean;
}

@ObjectType('ChangeOfWater', {
  description:
    'What changes with the person’s own new water do to un-ionised ammonia: every step by an upper bound, since nobody knows the pH of a mixture.',
})
export class ChangeOfWaterModel {
  @Field(() => ChangeOutcome, { description: 'What such changes can do.' })
  outcome: ChangeOutcome;

  @Field(() => Int, {
    nullable: true,
    description: 'How many equal changes, each of at most half the water; absent unless offered.',
  })
  steps: number | null;

  @Field(() => Float, { nullable: true, description: 'Share of each, in whole hundredths.' })
  shareOfEachStep: number | null;

  @Field(() => [Float], { description: 'Un-ionised after each, at most, mg/L as NH3.' })
  afterEachAsNH3: number[];

  @Field(() => Float, {
    nullable: true,
    description: 'Highest on the way of what is not offered, mg/L as NH3.',
  })
  worstOnTheWayAsNH3: number | null;

  @Field(() => Float, {
    nullable: true,
    description:
      'At most, after a usual change of a quarter, mg/L as NH3; absent when the new water cannot raise it at any share.',
  })
  afterUsualAsNH3: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'At most, at any share and while new water goes in, mg/L as NH3; absent likewise.',
  })
  raisedToAtMostAsNH3: number | null;

  @Field(() => [ChangeWarning], { description: 'What to be careful about.' })
  warnings: ChangeWarning[];

  @Field(() => String, { description: 'What to do, in words.' })
  remedy: string;

  @Field(() => [String], { description: 'What to be careful about, in words.' })
  cautions: string[];
}

@ObjectType('WaterTrust', { description: 'How far a reading still speaks for its water.' })
export class WaterTrustModel {
  @Field(() => TrustState, { description: 'Fresh, ageing or old.' })
  state: TrustState;

  @Field(() => Float, { description: 'Hours left; 0 when past its time.' })
  hoursLeft: number;
}

@ObjectType('WaterReading', { description: 'One look at the water of a spawn or a named vessel.' })
export class WaterReadingModel extends RecordModel {
  @Field(() => String, {
    nullable: true,
    description: 'Code of the vessel, when it is not that of a spawn.',
  })
  vessel: string | null;

  @Field(() => ID, { nullable: true, description: 'The vessel, when it is not that of a spawn.' })
  vesselId: string | null;

  @Field(() => Date, { description: 'When the water was taken.' })
  takenAt: Date;

  @Field(() => Float, { nullable: true, description: 'Total ammonia as the kit prints it, mg/L.' })
  totalAmmonia: number | null;

  @Field(() => AmmoniaUnit, { nullable: true, description: 'What that figure counts.' })
  ammoniaUnit: AmmoniaUnit | null;

  @Field(() => Float, { nullable: true, description: 'pH.' })
  pH: number | null;

  @Field(() => Float, { nullable: true, description: 'Degrees Celsius.' })
  celsius: number | null;

  @Field(() => Float, { nullable: true, description: 'Nitrite, mg/L.' })
  nitrite: number | null;

  @Field(() => NitrogenForm, { nullable: true, description: 'What the nitrite figure counts.' })
  nitriteForm: NitrogenForm | null;

  @Field(() => Float, { nullable: true, description: 'Nitrate, mg/L.' })
  nitrate: number | null;

  @Field(() => NitrogenForm, { nullable: true, description: 'What the nitrate figure counts.' })
  nitrateForm: NitrogenForm | null;

  @Field(() => String, { nullable: true, description: 'Which kit, and how it was read.' })
  kit: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => UnionisedAmmoniaModel, {
    nullable: true,
    description: 'Computed when total ammonia, pH and temperature are there and within range.',
  })
  unionised: UnionisedAmmoniaModel | null;

  @Field(() => String, { nullable: true, description: 'Why nothing was computed.' })
  notComputed: string | null;

  @Field(() => WaterStanding, { description: 'Against the limit that is set.' })
  standing: WaterStanding;

  @Field(() => WaterTrustModel, { description: 'By the rule that is set, at this moment.' })
  trust: WaterTrustModel;

  @Field(() => ChangeOfWaterModel, {
    nullable: true,
    description:
      'What changes with the person’s own new water would do, needed or not; absent when nothing was computed.',
  })
  change: ChangeOfWaterModel | null;

  spawnId: string | null;
}

@ObjectType('WaterRule', {
  description:
    'By what the person’s readings are judged, and the water that changes are made with.',
})
export class WaterRuleModel {
  @Field(() => Float, { description: 'Limit for un-ionised ammonia, mg/L.' })
  limit: number;

  @Field(() => AmmoniaUnit, { description: 'What the limit counts.' })
  limitUnit: AmmoniaUnit;

  @Field(() => Float, { description: 'The same limit as NH3, mg/L.' })
  limitAsNH3: number;

  @Field(() => Int, {
    description: 'Hours for which a reading counts: a rule of practice, without a source.',
  })
  trustHours: number;

  @Field(() => Float, { description: 'Total ammonia of the new water, mg/L as N.' })
  sourceTotalAsN: number;

  @Field(() => Float, {
    nullable: true,
    description: 'pH of the new water; absent: taken as that of the vessel.',
  })
  sourcePH: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Its temperature, °C; absent: taken as that of the vessel.',
  })
  sourceCelsius: number | null;

  @Field(() => Boolean, { description: 'False while the usual values stand.' })
  own: boolean;
}

@ObjectType('WaterReadingConnection', { description: 'One page of the readings.' })
export class WaterReadingConnectionModel extends connectionOf(
  WaterReadingModel,
  'WaterReading',
  'readings',
) {}

@ObjectType('WaterPlace', {
  description: 'Water that has readings: a spawn’s or a named vessel’s.',
})
export class WaterPlaceModel {
  @Field(() => String, { description: 'The spawn’s tag or the vessel’s name.' })
  name: string;

  @Field(() => String, {
    nullable: true,
    description: 'Code of the vessel, when it is not that of a spawn.',
  })
  vessel: string | null;

  @Field(() => ID, { nullable: true, description: 'The vessel, when it is not that of a spawn.' })
  vesselId: string | null;

  @Field(() => Int, { description: 'How many readings.' })
  readingCount: number;

  @Field(() => WaterReadingModel, { description: 'The newest.' })
  latest: WaterReadingModel;

  spawnId: string | null;
}

@ObjectType('WaterAlert', { description: 'Water that asks for attention now.' })
export class WaterAlertModel {
  @Field(() => WaterAlertKind, { description: 'Why.' })
  kind: WaterAlertKind;

  @Field(() => String, { description: 'How grave: stop, caution or note.' })
  severity: string;

  @Field(() => String, { description: 'In words, with what to do.' })
  message: string;

  @Field(() => [String], {
    description: 'What to be careful about in doing it, as on the page of the water.',
  })
  cautions: string[];

  @Field(() => WaterPlaceModel, { description: 'Whose water.' })
  place: WaterPlaceModel;
}
