import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../../graphql/date.scalar.js';
import { RecordModel } from '../../shapes/record.model.js';
import { FaultSeverity } from '../../stock/rows/sheet-content.js';

registerEnumType(FaultSeverity, {
  name: 'FaultSeverity',
  description: 'Class of a fault, in the words shows use; each person sets what it takes off.',
  valuesMap: {
    SLIGHT: { description: 'Seen only when looked for.' },
    MINOR: { description: 'Seen at once, and small.' },
    MAJOR: { description: 'Spoils a part.' },
    SEVERE: { description: 'Spoils the fish.' },
    DISQUALIFYING: { description: 'Rules the fish out, whatever its total.' },
  },
});

@ObjectType('ScoreSheetLine', { description: 'One trait on a sheet, and how it counts.' })
export class ScoreSheetLineModel {
  @Field(() => Int, {
    description: 'Version of the trait when this version of the sheet was made.',
  })
  traitVersion: number;

  @Field(() => Float, {
    nullable: true,
    description: 'The weight that is set; null on every line when all count alike.',
  })
  weight: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Value that earns nothing; null: the trait is scored but does not count.',
  })
  noneAt: number | null;

  @Field(() => Float, { nullable: true, description: 'Value that earns the whole line.' })
  fullAt: number | null;

  traitId: string;
}

@ObjectType('SheetFault', { description: 'A fault looked for on a sheet.' })
export class SheetFaultModel {
  @Field(() => ID, { description: 'UUID, the same over the versions of a sheet.' })
  id: string;

  @Field(() => String, { description: 'The fault.' })
  name: string;

  @Field(() => FaultSeverity, { description: 'Its class.' })
  severity: FaultSeverity;

  @Field(() => Float, {
    nullable: true,
    description: 'Points it takes off; null when none are set.',
  })
  points: number | null;
}

@ObjectType('SheetDeduction', { description: 'What faults of a class take off.' })
export class SheetDeductionModel {
  @Field(() => FaultSeverity, { description: 'Class.' })
  severity: FaultSeverity;

  @Field(() => Float, { description: 'Points out of 100.' })
  points: number;
}

@ObjectType('ScoreSheetVersion', {
  description:
    'What a sheet asked for at one time; never changed, so that older looks keep their meaning.',
})
export class ScoreSheetVersionModel {
  @Field(() => Int, { description: '1, 2, 3, …' })
  version: number;

  @Field(() => Date, { description: 'When it was made.' })
  madeAt: Date;

  @Field(() => Int, { nullable: true, description: 'Youngest age it is meant for, in days.' })
  fromAgeDays: number | null;

  @Field(() => Int, { nullable: true, description: 'Oldest age it is meant for, in days.' })
  toAgeDays: number | null;

  @Field(() => [ScoreSheetLineModel], { description: 'Its traits, in order.' })
  lines: ScoreSheetLineModel[];

  @Field(() => [SheetFaultModel], { description: 'Its faults, in order.' })
  faults: SheetFaultModel[];

  @Field(() => [SheetDeductionModel], {
    description: 'Points by class, as far as they are set.',
  })
  deductions: SheetDeductionModel[];
}

@ObjectType('ScoreSheet', {
  description:
    'A named set of traits and faults looked at together; weights and points are each person’s own.',
})
export class ScoreSheetModel extends RecordModel {
  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { nullable: true, description: 'What it is for.' })
  description: string | null;

  @Field(() => Int, { description: 'Number of its newest version.' })
  version: number;
}

@ObjectType('SheetScoringPart', { description: 'What one line of the sheet added to the total.' })
export class SheetScoringPartModel {
  @Field(() => Float, { nullable: true, description: 'The value; null when not scored.' })
  value: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Share of the line earned, 0 to 1; null when not scored or not counted.',
  })
  share: number | null;

  @Field(() => Float, { description: 'Weight used; 0 when the line does not count.' })
  weight: number;

  @Field(() => Float, { description: 'Points out of 100 that it added.' })
  points: number;

  traitId: string;
}

@ObjectType('SheetTotal', {
  description: 'Total by the weights that are set, with everything that makes it up.',
})
export class SheetTotalModel {
  @Field(() => Float, {
    nullable: true,
    description: '0 to 100 after faults; null when no counted line was scored.',
  })
  total: number | null;

  @Field(() => Float, { nullable: true, description: 'Before faults.' })
  beforeFaults: number | null;

  @Field(() => Float, { description: 'Points taken off for faults.' })
  deducted: number;

  @Field(() => Boolean, { description: 'True when a disqualifying fault was seen.' })
  disqualified: boolean;

  @Field(() => Int, {
    description:
      'Counted lines without a score; such a total is not to be compared with a full one.',
  })
  missing: number;

  @Field(() => Boolean, {
    description: 'True when no weight was set, so that all lines count alike.',
  })
  equalWeights: boolean;

  @Field(() => [SheetScoringPartModel], { description: 'Line by line, in the order of the sheet.' })
  parts: SheetScoringPartModel[];
}

@ObjectType('SheetScoring', { description: 'One fish looked at once on a sheet.' })
export class SheetScoringModel extends RecordModel {
  @Field(() => Int, { description: 'Version of the sheet it was scored on.' })
  sheetVersion: number;

  @Field(() => DateScalar, { description: 'Day.' })
  scoredOn: string;

  @Field(() => Int, { nullable: true, description: 'Age of the fish then, in days.' })
  ageDays: number | null;

  @Field(() => String, { description: 'Who looked.' })
  scorer: string;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  fishId: string;
  sheetId: string;
  faultIds: string[];
}
