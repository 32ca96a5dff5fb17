import { graphql, type ResultOf } from './graphql.js';

const careStep = graphql(`
  fragment CareStepParts on CareStep {
    id
    title
    kind
    why
    basis
    citation
    conditions
    caution
    event
    everyHours
    forHours
    eachTime
    until
    onlyIf
    lapseHours
    after {
      after
      afterTitle
      hours
      earliest
      latest
    }
    published {
      after
      from
      to
      unit
      what
      conditions
      citation
    }
  }
`);

const careReason = graphql(`
  fragment CareReasonParts on CareReason {
    after
    afterTitle
    at
    certainty
    dayOnly
    hours
    decides
    moved
  }
`);

export type CareStep = ResultOf<typeof careStep>;
export type CareReason = ResultOf<typeof careReason>;

export const CARE_TASKS = graphql(`
  query CareTasks($from: Date!, $to: Date!, $zone: String!) {
    careTasks(from: $from, to: $to, zone: $zone) {
      id
      state
      day
      from
      about
      to
      waitsFor
      spawn {
        id
        tag
        line {
          id
          code
        }
      }
      step {
        id
        title
        kind
        caution
      }
    }
  }
`);

/** Why the steps of a spawn are due when they are: asked when somebody asks why, since it is most of what is known of a step. */
export const CARE_REASONS = graphql(
  `
    query CareReasons($id: ID!) {
      spawn(id: $id) {
        id
        care {
          steps {
            step {
              ...CareStepParts
            }
            reasons {
              ...CareReasonParts
            }
          }
        }
      }
    }
  `,
  [careStep, careReason],
);

export type CareTask = ResultOf<typeof CARE_TASKS>['careTasks'][number];

export const SPAWN_CARE = graphql(
  `
    query SpawnCare($id: ID!) {
      spawn(id: $id) {
        id
        care {
          endedBy
          endedAt
          template {
            id
            name
            revision
          }
          log {
            id
            step
            title
            at
            action
            note
            revision
            dayOnly
            editable
          }
          steps {
            state
            from
            about
            to
            waitsFor
            step {
              ...CareStepParts
            }
            reasons {
              ...CareReasonParts
            }
            noLonger {
              because
              by
              at
            }
            records {
              id
              at
              action
              note
              dayOnly
            }
          }
        }
      }
    }
  `,
  [careStep, careReason],
);

export type SpawnCare = ResultOf<typeof SPAWN_CARE>['spawn']['care'];
export type PlannedStep = SpawnCare['steps'][number];
export type LogRecord = SpawnCare['log'][number];

export const RECORD_CARE = graphql(`
  mutation RecordCare($input: RecordCareInput!) {
    recordCare(input: $input)
  }
`);

export const SKIP_CARE = graphql(`
  mutation SkipCare($input: SkipCareInput!) {
    skipCare(input: $input)
  }
`);

export const CORRECT_CARE = graphql(`
  mutation CorrectCare($input: CorrectCareInput!) {
    correctCare(input: $input) {
      id
      revision
    }
  }
`);

export const UNDO_CARE = graphql(`
  mutation UndoCare($input: UndoCareInput!) {
    undoCare(input: $input) {
      id
      revision
    }
  }
`);

export const CARE_TEMPLATES = graphql(
  `
    query CareTemplates {
      careTemplates {
        id
        name
        revision
        line {
          id
          code
          name
          mayChange
        }
        steps {
          ...CareStepParts
        }
      }
    }
  `,
  [careStep],
);

export type CareTemplate = ResultOf<typeof CARE_TEMPLATES>['careTemplates'][number];

export const SAVE_CARE_TEMPLATE = graphql(`
  mutation SaveCareTemplate($input: SaveCareTemplateInput!) {
    saveCareTemplate(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_CARE_TEMPLATE = graphql(`
  mutation WithdrawCareTemplate($input: WithdrawInput!) {
    withdrawCareTemplate(input: $input)
  }
`);

export const CALENDAR_ADDRESS = graphql(`
  query CalendarAddress {
    calendarAddress {
      on
      since
    }
  }
`);

export const RENEW_CALENDAR_ADDRESS = graphql(`
  mutation RenewCalendarAddress {
    renewCalendarAddress {
      on
      since
      path
    }
  }
`);

export const TURN_OFF_CALENDAR_ADDRESS = graphql(`
  mutation TurnOffCalendarAddress {
    turnOffCalendarAddress {
      on
    }
  }
`);
