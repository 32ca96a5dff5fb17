import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { correctionOf } from '../../graphql/correction.js';
import { EntryId, IdSentOnce } from '../../graphql/sent.js';
import { DateScalar } from '../../graphql/date.scalar.js';
import { TraitScoreInput } from '../score.inputs.js';
import { FaultSeverity } from '../../stock/rows/sheet-content.js';

@InputType({ description: 'One trait on a sheet.' })
export class ScoreSheetLineInput {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => Float, {
    nullable: true,
    description: 'Your weight, 0 or more; give one on every line, or on none (all count alike).',
  })
  weight?: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Value that earns no points; give neither level for a trait that does not count.',
  })
  noneAt?: number | null;

  @Field(() => Float, { nullable: true, description: 'Value that earns the whole line.' })
  fullAt?: number | null;
}

@InputType({ description: 'A fault to look for.' })
export class SheetFaultInput {
  @Field(() => ID, {
    nullable: true,
    description: 'Its id in the version before; one is made when absent.',
  })
  id?: string | null;

  @Field(() => String, { description: 'The fault.' })
  name: string;

  @Field(() => FaultSeverity, { description: 'Its class.' })
  severity: FaultSeverity;
}

@InputType({ description: 'What faults of a class take off.' })
export class SheetDeductionInput {
  @Field(() => FaultSeverity, {
    description: 'Class; not disqualifying, which rules out by itself.',
  })
  severity: FaultSeverity;

  @Field(() => Float, { description: 'Points out of 100, 0 or more.' })
  points: number;
}

@InputType({ description: 'What a version of a sheet asks for.' })
export class SheetContentInput {
  @Field(() => Int, { nullable: true, description: 'Youngest age it is meant for, in days.' })
  fromAgeDays?: number | null;

  @Field(() => Int, { nullable: true, description: 'Oldest age it is meant for, in days.' })
  toAgeDays?: number | null;

  @Field(() => [ScoreSheetLineInput], { description: 'The traits, in order.' })
  lines: ScoreSheetLineInput[];

  @Field(() => [SheetFaultInput], { description: 'The faults, in order.' })
  faults: SheetFaultInput[];

  @Field(() => [SheetDeductionInput], { description: 'Points by class, as far as you set them.' })
  deductions: SheetDeductionInput[];
}

@InputType({ description: 'A new sheet.' })
export class CreateScoreSheetInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { nullable: true, description: 'What it is for.' })
  description?: string | null;

  @Field(() => SheetContentInput, { description: 'What it asks for.' })
  content: SheetContentInput;
}

@InputType({ description: 'A new sheet from one of the offered beginnings.' })
export class StartScoreSheetInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => String, { description: 'Key of the beginning.' })
  start: string;

  @Field(() => String, { nullable: true, description: 'Name; the beginning’s when absent.' })
  name?: string | null;
}

@InputType({ description: 'Changes a sheet; a changed content makes a new version.' })
export class ReviseScoreSheetInput extends correctionOf(CreateScoreSheetInput, 'sheet') {}

@InputType({ description: 'One fish looked at on a sheet: everything is saved, or nothing.' })
export class ScoreOnSheetInput {
  @Field(() => ID, { description: 'UUID made by the sender; sending it twice records it once.' })
  id: string;

  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => ID, { description: 'The sheet.' })
  sheetId: string;

  @Field(() => Int, {
    description: 'Version of the sheet that was filled in; an older one may still be sent.',
  })
  sheetVersion: number;

  @Field(() => DateScalar, { description: 'Day.' })
  scoredOn: string;

  @Field(() => String, {
    nullable: true,
    description: 'Who looked; the person signed in when absent.',
  })
  scorer?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @Field(() => [TraitScoreInput], { description: 'The values, as far as scored.' })
  scores: TraitScoreInput[];

  @Field(() => [ID], { description: 'Ids of the sheet’s faults that were seen.' })
  faultIds: string[];

  @EntryId()
  entryId?: string | null;
}
