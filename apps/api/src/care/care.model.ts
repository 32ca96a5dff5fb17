import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { LineModel } from '../shapes/line.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import {
  AnchorCertainty,
  CareAction,
  CareBasisKind,
  CareState,
  CareStepKind,
  FigureUnit,
  NoLongerBecause,
} from '../shapes/care.enums.js';

@ObjectType('CareTiming', { description: 'When a step is due after another.' })
export class CareTimingModel {
  @Field(() => String, { description: 'Step or event it follows.' })
  after: string;

  @Field(() => String, { description: 'The same in words.' })
  afterTitle: string;

  @Field(() => Float, { description: 'Hours after it at which the step is expected.' })
  hours: number;

  @Field(() => Float, { description: 'Hours after it from which it may be done.' })
  earliest: number;

  @Field(() => Float, { description: 'Hours after it until which it is not late.' })
  latest: number;
}

@ObjectType('PublishedFigure', {
  description:
    'A published figure with its conditions; it stands beside the calendar and does not move it.',
})
export class PublishedFigureModel {
  @Field(() => String, { description: 'Event it is counted from.' })
  after: string;

  @Field(() => Float, { description: 'From, in its unit.' })
  from: number;

  @Field(() => Float, { description: 'To, in its unit.' })
  to: number;

  @Field(() => FigureUnit, { description: 'Unit as printed.' })
  unit: FigureUnit;

  @Field(() => String, { description: 'What was seen.' })
  what: string;

  @Field(() => String, { description: 'Temperature and the like: it holds for these only.' })
  conditions: string;

  @Field(() => String, { description: 'Where it is printed.' })
  citation: string;
}

@ObjectType('CareStep', { description: 'A step of a calendar.' })
export class CareStepModel {
  @Field(() => String, { description: 'What it is recorded under.' })
  id: string;

  @Field(() => String, { description: 'What is done.' })
  title: string;

  @Field(() => CareStepKind, { description: 'What it asks.' })
  kind: CareStepKind;

  @Field(() => [CareTimingModel], {
    description: 'What it follows; of several the latest decides.',
  })
  after: CareTimingModel[];

  @Field(() => Float, { nullable: true, description: 'Repeated every so many hours.' })
  everyHours: number | null;

  @Field(() => Float, { nullable: true, description: 'Repeated for so many hours.' })
  forHours: number | null;

  @Field(() => Boolean, {
    description: 'True when due once after every record of what it follows.',
  })
  eachTime: boolean;

  @Field(() => [String], { description: 'It ends once one of these was recorded.' })
  until: string[];

  @Field(() => String, { nullable: true, description: 'It applies only where this was recorded.' })
  onlyIf: string | null;

  @Field(() => Float, { nullable: true, description: 'Dropped so many hours after its window.' })
  lapseHours: number | null;

  @Field(() => String, { description: 'Why it is done.' })
  why: string;

  @Field(() => CareBasisKind, { description: 'Where it comes from.' })
  basis: CareBasisKind;

  @Field(() => String, { nullable: true, description: 'Publication it comes from.' })
  citation: string | null;

  @Field(() => String, { nullable: true, description: 'Conditions the publication holds for.' })
  conditions: string | null;

  @Field(() => String, { nullable: true, description: 'What to be careful about.' })
  caution: string | null;

  @Field(() => Boolean, { description: 'True when recording it records an event of the spawn.' })
  event: boolean;

  @Field(() => [PublishedFigureModel], { description: 'Published figures to compare with.' })
  published: PublishedFigureModel[];
}

@ObjectType('CareReason', { description: 'One of the reasons why a step is due when it is.' })
export class CareReasonModel {
  @Field(() => String, { description: 'Step or event it follows.' })
  after: string;

  @Field(() => String, { description: 'The same in words.' })
  afterTitle: string;

  @Field(() => Date, { description: 'When that was, or is expected.' })
  at: Date;

  @Field(() => AnchorCertainty, { description: 'How well that is known.' })
  certainty: AnchorCertainty;

  @Field(() => Boolean, { description: 'True where only the day of it is known, not the hour.' })
  dayOnly: boolean;

  @Field(() => Float, { description: 'Hours after it.' })
  hours: number;

  @Field(() => Boolean, { description: 'True for the one that decides.' })
  decides: boolean;

  @Field(() => Float, {
    nullable: true,
    description: 'Hours by which it came later (+) or earlier (-) than expected.',
  })
  moved: number | null;
}

@ObjectType('NoLonger', { description: 'Why a step is not called for any more.' })
export class NoLongerModel {
  @Field(() => NoLongerBecause, { description: 'Kind of reason.' })
  because: NoLongerBecause;

  @Field(() => String, { nullable: true, description: 'What shows it, in words.' })
  by: string | null;

  @Field(() => Date, { nullable: true, description: 'Since when.' })
  at: Date | null;
}

@ObjectType('CareRecord', { description: 'A record of a step: done, seen, or skipped.' })
export class CareRecordModel {
  @Field(() => ID, {
    description: 'UUID; for a day taken from the spawn itself, not a record of its own.',
  })
  id: string;

  @Field(() => String, { description: 'Step or event.' })
  step: string;

  @Field(() => String, { description: 'The same in words.' })
  title: string;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => CareAction, { description: 'Done or skipped.' })
  action: CareAction;

  @Field(() => String, { nullable: true, description: 'Note, or why it was skipped.' })
  note: string | null;

  @Field(() => Int, {
    description: 'Raised by one at each correction; 0 where it is not a record.',
  })
  revision: number;

  @Field(() => Boolean, {
    description: 'True where only the day is known: the hour of `at` stands for none.',
  })
  dayOnly: boolean;

  @Field(() => Boolean, {
    description: 'False for a day taken from the spawn or its plan: correct it there.',
  })
  editable: boolean;
}

@ObjectType('PlannedStep', { description: 'A step of one spawn: where it stands and why.' })
export class PlannedStepModel {
  @Field(() => CareStepModel, { description: 'The step.' })
  step: CareStepModel;

  @Field(() => CareState, { description: 'Where it stands.' })
  state: CareState;

  @Field(() => Date, { nullable: true, description: 'Its window opens.' })
  from: Date | null;

  @Field(() => Date, { nullable: true, description: 'It is expected.' })
  about: Date | null;

  @Field(() => Date, { nullable: true, description: 'Its window closes.' })
  to: Date | null;

  @Field(() => [CareReasonModel], { description: 'Why then.' })
  reasons: CareReasonModel[];

  @Field(() => [String], { description: 'What has to happen first, in words.' })
  waitsFor: string[];

  @Field(() => NoLongerModel, { nullable: true, description: 'Why it is not called for any more.' })
  noLonger: NoLongerModel | null;

  @Field(() => [CareRecordModel], { description: 'What was recorded under it, in order.' })
  records: CareRecordModel[];
}

@ObjectType('CareTemplate', {
  description: "A calendar: the built-in one, or a person's own for a line.",
})
export class CareTemplateModel {
  @Field(() => ID, { nullable: true, description: 'UUID; none for the built-in one.' })
  id: string | null;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => Int, {
    description: 'Version: raised by one at each change; 0 for the built-in one.',
  })
  revision: number;

  @Field(() => [CareStepModel], { description: 'Its steps.' })
  steps: CareStepModel[];

  @Field(() => LineModel, {
    nullable: true,
    description: 'Line it is for; none for the built-in one.',
  })
  line?: LineModel | null;

  lineId: string | null;
}

@ObjectType('CarePlan', { description: "A spawn's calendar as its events have it." })
export class CarePlanModel {
  @Field(() => CareTemplateModel, { description: 'The calendar it follows.' })
  template: CareTemplateModel;

  @Field(() => [PlannedStepModel], { description: 'Its steps, in the order of the calendar.' })
  steps: PlannedStepModel[];

  @Field(() => [CareRecordModel], {
    description: 'Everything recorded, in order of time: the log.',
  })
  log: CareRecordModel[];

  @Field(() => String, { nullable: true, description: 'What ended it, in words.' })
  endedBy: string | null;

  @Field(() => Date, { nullable: true, description: 'When it ended.' })
  endedAt: Date | null;
}

@ObjectType('CareTask', { description: 'One thing to do, with its spawn and its reason.' })
export class CareTaskModel {
  @Field(() => ID, { description: 'Stays the same while the task is moved about.' })
  id: string;

  @Field(() => SpawnModel, { description: 'Its spawn.' })
  spawn: SpawnModel;

  @Field(() => CareStepModel, { description: 'The step.' })
  step: CareStepModel;

  @Field(() => CareState, { description: 'Due, overdue or upcoming.' })
  state: CareState;

  @Field(() => DateScalar, {
    description:
      'Day of the list it belongs to, in the zone asked for: the first day for what is open or overdue.',
  })
  day: string;

  @Field(() => Date, { description: 'Its window opens.' })
  from: Date;

  @Field(() => Date, { description: 'It is expected.' })
  about: Date;

  @Field(() => Date, { description: 'Its window closes.' })
  to: Date;

  @Field(() => [CareReasonModel], { description: 'Why then.' })
  reasons: CareReasonModel[];

  @Field(() => [String], { description: 'What has to happen first, in words.' })
  waitsFor: string[];
}

@ObjectType('CalendarAddress', {
  description: 'Whether calendar programs may read the tasks, and where.',
})
export class CalendarAddressModel {
  @Field(() => Boolean, { description: 'True when the address answers.' })
  on: boolean;

  @Field(() => Date, { nullable: true, description: 'Since when this address.' })
  since: Date | null;

  @Field(() => String, {
    nullable: true,
    description: 'The path with its secret: told once, when it is made; only its hash is kept.',
  })
  path: string | null;
}
