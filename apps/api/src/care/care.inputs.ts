import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { IdSentOnce } from '../graphql/sent.js';
import { CareBasisKind, CareStepKind } from '../shapes/care.enums.js';

@InputType({ description: 'A step that was done or seen.' })
export class RecordCareInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => String, { description: 'Step or event.' })
  step: string;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => String, { nullable: true, description: 'Anything else; for a failed spawn, why.' })
  note?: string | null;

  @Field(() => String, {
    nullable: true,
    description:
      "The person's time zone (IANA name), in which the day of an event is read; that of the request when absent.",
  })
  zone?: string | null;
}

@InputType({ description: 'A step that is skipped.' })
export class SkipCareInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => String, { description: 'Step.' })
  step: string;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => String, { description: 'Why.' })
  reason: string;
}

@InputType({ description: 'Corrects a record of the log; absent fields stay.' })
export class CorrectCareInput {
  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => ID, { description: 'The record.' })
  recordId: string;

  @Field(() => Int, {
    nullable: true,
    description: 'Revision the form was opened at: refused when someone corrected it meanwhile.',
  })
  revision?: number | null;

  @Field(() => Date, { nullable: true, description: 'When.' })
  at?: Date | null;

  @Field(() => String, { nullable: true, description: 'Note.' })
  note?: string | null;

  @Field(() => String, { nullable: true, description: "The person's time zone (IANA name)." })
  zone?: string | null;
}

@InputType({ description: 'Takes a record of the log back.' })
export class UndoCareInput {
  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => ID, { description: 'The record.' })
  recordId: string;

  @Field(() => String, { nullable: true, description: 'Why; "undone" when absent.' })
  reason?: string | null;

  @Field(() => String, { nullable: true, description: "The person's time zone (IANA name)." })
  zone?: string | null;
}

@InputType({ description: 'When a step is due after another.' })
export class CareTimingInput {
  @Field(() => String, { description: 'Step or event it follows.' })
  after: string;

  @Field(() => Float, { description: 'Hours after it at which the step is expected.' })
  hours: number;

  @Field(() => Float, { nullable: true, description: 'Hours from which it may be done.' })
  earliest?: number | null;

  @Field(() => Float, { nullable: true, description: 'Hours until which it is not late.' })
  latest?: number | null;
}

@InputType({ description: 'A step of a calendar.' })
export class CareStepInput {
  @Field(() => String, { description: 'What it is recorded under: small letters, digits and _.' })
  id: string;

  @Field(() => String, { description: 'What is done.' })
  title: string;

  @Field(() => CareStepKind, { description: 'What it asks.' })
  kind: CareStepKind;

  @Field(() => [CareTimingInput], { description: 'What it follows.' })
  after: CareTimingInput[];

  @Field(() => Float, { nullable: true, description: 'Repeated every so many hours.' })
  everyHours?: number | null;

  @Field(() => Float, { nullable: true, description: 'Repeated for so many hours.' })
  forHours?: number | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'Due once after every record of what it follows.',
  })
  eachTime?: boolean | null;

  @Field(() => [String], { nullable: true, description: 'It ends once one of these was recorded.' })
  until?: string[] | null;

  @Field(() => String, { nullable: true, description: 'It applies only where this was recorded.' })
  onlyIf?: string | null;

  @Field(() => Float, { nullable: true, description: 'Dropped so many hours after its window.' })
  lapseHours?: number | null;

  @Field(() => String, { nullable: true, description: 'Why it is done.' })
  why?: string | null;

  @Field(() => CareBasisKind, { description: 'Where it comes from.' })
  basis: CareBasisKind;

  @Field(() => String, { nullable: true, description: 'Publication it comes from.' })
  citation?: string | null;

  @Field(() => String, { nullable: true, description: 'Conditions the publication holds for.' })
  conditions?: string | null;

  @Field(() => String, { nullable: true, description: 'What to be careful about.' })
  caution?: string | null;
}

@InputType({
  description: "A line's own calendar: a new one, or a new version of the one in force.",
})
export class SaveCareTemplateInput {
  @Field(() => ID, {
    nullable: true,
    description: 'Id of the calendar; for a new one a UUID made by the sender.',
  })
  id?: string | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Version the form was opened at; absent for a new one.',
  })
  revision?: number | null;

  @Field(() => ID, { description: 'Line it is for.' })
  lineId: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => [CareStepInput], { description: 'Its steps.' })
  steps: CareStepInput[];
}
