import { graphql, type ResultOf } from './graphql.js';

export const sessionParts = graphql(`
  fragment SessionParts on Session {
    person {
      id
      name
      here
    }
    role
    looking
    ofTheHouse
    setUpNeeded
    codeNeeded
    demoOffered
    demoOpen
    signedIn
    hasPassword
    loopback
  }
`);

export const SESSION = graphql(
  `
    query Session {
      session {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export type Session = ResultOf<typeof sessionParts>;

export const SET_UP = graphql(
  `
    mutation SetUp($input: SetUpInput!) {
      setUp(input: $input) {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const SIGN_IN = graphql(
  `
    mutation SignIn($password: String!, $name: String, $code: String) {
      signIn(password: $password, name: $name, code: $code) {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const SIGN_OUT = graphql(
  `
    mutation SignOut {
      signOut {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const SET_PASSWORD = graphql(
  `
    mutation SetPassword($password: String!, $current: String) {
      setPassword(password: $password, current: $current) {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const OPEN_DEMO = graphql(
  `
    mutation OpenDemo {
      openDemo {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const LOAD_DEMO = graphql(
  `
    mutation LoadDemo {
      loadDemo {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const CLEAR_DEMO = graphql(
  `
    mutation ClearDemo($confirm: String!) {
      clearDemo(confirm: $confirm) {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);
