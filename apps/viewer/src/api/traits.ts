import { graphql, type ResultOf } from './graphql.js';

export const TRAITS = graphql(`
  query Traits($includeWithdrawn: Boolean) {
    traits(includeWithdrawn: $includeWithdrawn) {
      id
      key
      name
      kind
      unit
      minimum
      maximum
      higherIsBetter
      fromAgeDays
      toAgeDays
      description
      grades {
        from
        name
      }
      version
      revision
      mayChange
      withdrawn {
        at
        reason
      }
    }
  }
`);

export type Trait = ResultOf<typeof TRAITS>['traits'][number];

export const CREATE_TRAIT = graphql(`
  mutation CreateTrait($input: CreateTraitInput!) {
    createTrait(input: $input) {
      id
      name
    }
  }
`);

export const CORRECT_TRAIT = graphql(`
  mutation CorrectTrait($input: CorrectTraitInput!) {
    correctTrait(input: $input) {
      id
      version
    }
  }
`);

export const WITHDRAW_TRAIT = graphql(`
  mutation WithdrawTrait($input: WithdrawInput!) {
    withdrawTrait(input: $input) {
      id
    }
  }
`);
