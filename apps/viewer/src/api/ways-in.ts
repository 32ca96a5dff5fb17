import { graphql, type ResultOf } from './graphql.js';
import { sessionParts } from './session.js';

export const WAYS_IN = graphql(`
  query WaysIn {
    waysIn {
      secondStep {
        since
        spareCodes
      }
      passkeys {
        id
        name
        createdAt
        usedAt
      }
      tokens {
        id
        name
        mayRecord
        createdAt
        expiresAt
        usedAt
      }
    }
  }
`);

export type WaysIn = ResultOf<typeof WAYS_IN>['waysIn'];

export const OFFER_SECOND_STEP = graphql(`
  mutation OfferSecondStep($password: String!) {
    offerSecondStep(password: $password) {
      secret
      qr {
        size
        path
      }
    }
  }
`);

export type SecondStepOffer = ResultOf<typeof OFFER_SECOND_STEP>['offerSecondStep'];

export const CONFIRM_SECOND_STEP = graphql(`
  mutation ConfirmSecondStep($code: String!) {
    confirmSecondStep(code: $code)
  }
`);

export const RENEW_SPARE_CODES = graphql(`
  mutation RenewSpareCodes($password: String!) {
    renewSpareCodes(password: $password)
  }
`);

export const END_SECOND_STEP = graphql(`
  mutation EndSecondStep($password: String!, $code: String!) {
    endSecondStep(password: $password, code: $code) {
      secondStep {
        since
      }
    }
  }
`);

export const OFFER_PASSKEY = graphql(`
  mutation OfferPasskey($password: String!) {
    offerPasskey(password: $password) {
      id
      options
    }
  }
`);

export const ADD_PASSKEY = graphql(`
  mutation AddPasskey($name: String!, $input: PasskeyAnswerInput!) {
    addPasskey(name: $name, input: $input) {
      passkeys {
        id
      }
    }
  }
`);

export const REMOVE_PASSKEY = graphql(`
  mutation RemovePasskey($id: ID!) {
    removePasskey(id: $id) {
      passkeys {
        id
      }
    }
  }
`);

export const ASK_PASSKEY = graphql(`
  mutation AskPasskey {
    askPasskey {
      id
      options
    }
  }
`);

export const SIGN_IN_WITH_PASSKEY = graphql(
  `
    mutation SignInWithPasskey($input: PasskeyAnswerInput!) {
      signInWithPasskey(input: $input) {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const MAKE_TOKEN = graphql(`
  mutation MakeToken($password: String!, $input: MakeTokenInput!) {
    makeToken(password: $password, input: $input) {
      secret
      token {
        name
        expiresAt
      }
    }
  }
`);

export type NewToken = ResultOf<typeof MAKE_TOKEN>['makeToken'];

export const END_TOKEN = graphql(`
  mutation EndToken($id: ID!) {
    endToken(id: $id) {
      tokens {
        id
      }
    }
  }
`);
