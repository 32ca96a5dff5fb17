import { Field, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { DayOrder, RepairAnswer } from '@linewright/repair';

export const ImportDayOrder = { DAY_FIRST: 'day-first', MONTH_FIRST: 'month-first' } as const;
registerEnumType(ImportDayOrder, {
  name: 'ImportDayOrder',
  description: 'Which comes first in days such as 5/3/2024.',
  valuesMap: {
    DAY_FIRST: { description: 'The day: 5 March.' },
    MONTH_FIRST: { description: 'The month: 3 May.' },
  },
});

export const ImportSeparator = { COMMA: ',', SEMICOLON: ';', TAB: '\t' } as const;
registerEnumType(ImportSeparator, {
  name: 'ImportSeparator',
  description: 'What stands between the cells of a row.',
  valuesMap: {
    COMMA: { description: 'A comma.' },
    SEMICOLON: { description: 'A semicolon.' },
    TAB: { description: 'A tab.' },
  },
});

export const ImportUnmarked = { UNSORTED: 'unsorted', KEEPER: 'keeper' } as const;
export type ImportUnmarked = (typeof ImportUnmarked)[keyof typeof ImportUnmarked];
registerEnumType(ImportUnmarked, {
  name: 'ImportUnmarked',
  description: 'What becomes of fish of which the file does not say whether they are in use.',
  valuesMap: {
    UNSORTED: { description: 'They stay out of pairing until somebody says more.' },
    KEEPER: { description: 'They are kept, and can be paired.' },
  },
});

export const ImportRepairAnswer = {
  EMPTY: 'empty',
  LEAVE_OUT: 'leave-out',
  OFFER: 'offer',
  ADD: 'add',
  NOTE: 'note',
} as const;
registerEnumType(ImportRepairAnswer, {
  name: 'ImportRepairAnswer',
  description: 'One answer for all faults of a cause.',
  valuesMap: {
    EMPTY: { description: 'The cells count as empty.' },
    LEAVE_OUT: { description: 'The rows are not imported.' },
    OFFER: { description: 'Every value with one offer becomes that.' },
    ADD: { description: 'A parent without a row becomes a fish with a tag only.' },
    NOTE: { description: 'The value goes into the note of the fish.' },
  },
});

const CODE = 'Code of the faults, IMPORT_….';
const COLUMN = 'Header of the column.';
const ANSWER = 'The answer.';

/** A record of the answer and its input: the same fields, said once for each of the two kinds. */
@ObjectType('ImportCauseAnswer', { description: 'One answer for all faults of a cause.' })
export class ImportCauseAnswerModel {
  @Field(() => String, { description: CODE })
  code: string;

  @Field(() => String, { nullable: true, description: COLUMN })
  column: string | null;

  @Field(() => ImportRepairAnswer, { description: ANSWER })
  answer: RepairAnswer;

  @Field(() => Int, { description: 'In how many places it changed something.' })
  count: number;
}

@InputType({ description: 'One answer for all faults of a cause.' })
export class ImportCauseAnswerInput {
  @Field(() => String, { description: CODE })
  code: string;

  @Field(() => String, { nullable: true, description: COLUMN })
  column?: string | null;

  @Field(() => ImportRepairAnswer, { description: ANSWER })
  answer: RepairAnswer;
}

@ObjectType('ImportValueRepair', {
  description: 'A wrong value of a column, mended wherever it stands there.',
})
@InputType('ImportValueRepairInput', {
  description: 'A wrong value of a column, mended wherever it stands there.',
})
export class ImportValueRepair {
  @Field(() => String, { description: COLUMN })
  column: string;

  @Field(() => String, { description: 'What stands there.' })
  from: string;

  @Field(() => String, { description: 'What it is read as; nothing for an empty cell.' })
  to: string;
}

@ObjectType('ImportCellRepair', { description: 'A cell, mended in place.' })
@InputType('ImportCellRepairInput', { description: 'A cell, mended in place.' })
export class ImportCellRepair {
  @Field(() => Int, { description: 'Line of the file.' })
  line: number;

  @Field(() => String, { description: COLUMN })
  column: string;

  @Field(() => String, { description: 'What it is read as; nothing for an empty cell.' })
  to: string;
}

const DAY_ORDER = 'Which comes first in days such as 5/3/2024; empty to go by what a day proves.';
const SEPARATOR = 'What stands between cells; empty to go by the first line.';
const UNMARKED =
  'What becomes of fish not marked as in use or not; empty: they stay out of pairing.';
const LEFT_OUT = 'Lines of rows that are not imported.';
const FISH = 'Lines of rows that are named like a sum and are fish.';

@ObjectType('ImportRepairs', { description: 'What was decided about a file.' })
export class ImportRepairsModel {
  @Field(() => ImportDayOrder, { nullable: true, description: DAY_ORDER })
  dayOrder: DayOrder | null;

  @Field(() => ImportSeparator, { nullable: true, description: SEPARATOR })
  separator: string | null;

  @Field(() => ImportUnmarked, { nullable: true, description: UNMARKED })
  unmarked: ImportUnmarked | null;

  @Field(() => [ImportCauseAnswerModel], { description: 'Answers for whole causes.' })
  answers: ImportCauseAnswerModel[];

  @Field(() => [ImportValueRepair], { description: 'Values mended wherever they stand.' })
  values: ImportValueRepair[];

  @Field(() => [ImportCellRepair], { description: 'Cells mended in place.' })
  cells: ImportCellRepair[];

  @Field(() => [Int], { description: LEFT_OUT })
  leftOut: number[];

  @Field(() => [Int], { description: FISH })
  fish: number[];
}

@InputType({ description: 'What was decided about a file.' })
export class ImportRepairsInput {
  @Field(() => ImportDayOrder, { nullable: true, description: DAY_ORDER })
  dayOrder?: DayOrder | null;

  @Field(() => ImportSeparator, { nullable: true, description: SEPARATOR })
  separator?: string | null;

  @Field(() => ImportUnmarked, { nullable: true, description: UNMARKED })
  unmarked?: ImportUnmarked | null;

  @Field(() => [ImportCauseAnswerInput], {
    nullable: true,
    description: 'Answers for whole causes.',
  })
  answers?: ImportCauseAnswerInput[] | null;

  @Field(() => [ImportValueRepair], {
    nullable: true,
    description: 'Values mended wherever they stand.',
  })
  values?: ImportValueRepair[] | null;

  @Field(() => [ImportCellRepair], { nullable: true, description: 'Cells mended in place.' })
  cells?: ImportCellRepair[] | null;

  @Field(() => [Int], { nullable: true, description: LEFT_OUT })
  leftOut?: number[] | null;

  @Field(() => [Int], { nullable: true, description: FISH })
  fish?: number[] | null;
}
