import { graphql, type ResultOf } from './graphql.js';

export const LINES = graphql(`
  query Lines($includeWithdrawn: Boolean) {
    lines(includeWithdrawn: $includeWithdrawn) {
      id
      code
      name
      goal
      fishCount
      inUseCount
      spawnCount
      person {
        id
        name
        here
      }
      withdrawn {
        at
        reason
      }
    }
  }
`);

export const LINE_CHOICES = graphql(`
  query LineChoices {
    lines {
      id
      code
      name
      inUseCount
      mayChange
      mayBreed
    }
  }
`);

export const LINE = graphql(`
  query Line($id: ID!) {
    line(id: $id) {
      id
      code
      name
      goal
      revision
      fishCount
      inUseCount
      spawnCount
      person {
        id
        name
        here
      }
      mayChange
      withdrawn {
        at
        reason
      }
    }
  }
`);

export type LineFacts = ResultOf<typeof LINE>['line'];

export const CREATE_LINE = graphql(`
  mutation CreateLine($input: CreateLineInput!) {
    createLine(input: $input) {
      id
      code
    }
  }
`);

export const CORRECT_LINE = graphql(`
  mutation CorrectLine($input: CorrectLineInput!) {
    correctLine(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_LINE = graphql(`
  mutation WithdrawLine($input: WithdrawInput!) {
    withdrawLine(input: $input) {
      id
    }
  }
`);
