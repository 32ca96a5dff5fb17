import { graphql, type ResultOf } from './graphql.js';
import { sessionParts } from './session.js';

export const PEOPLE = graphql(`
  query People {
    people {
      id
      name
      here
    }
  }
`);

const accountParts = graphql(`
  fragment AccountParts on Account {
    person {
      id
      name
      here
    }
    role
    invitedUntil
    joined
    paired
    lastSeen
  }
`);

export type Account = ResultOf<typeof accountParts>;

export const ACCOUNTS = graphql(
  `
    query Accounts {
      accounts {
        ...AccountParts
      }
    }
  `,
  [accountParts],
);

export const INVITE_PERSON = graphql(`
  mutation InvitePerson($input: InvitePersonInput!) {
    invitePerson(input: $input) {
      path
      expiresAt
    }
  }
`);

export const RENEW_INVITATION = graphql(`
  mutation RenewInvitation($personId: ID!) {
    renewInvitation(personId: $personId) {
      path
      expiresAt
    }
  }
`);

export const END_ACCOUNT = graphql(`
  mutation EndAccount($personId: ID!) {
    endAccount(personId: $personId) {
      person {
        id
      }
    }
  }
`);

export const INVITATION = graphql(`
  query Invitation($token: String!) {
    invitation(token: $token) {
      name
      ownerName
      expiresAt
    }
  }
`);

export const ACCEPT_INVITATION = graphql(
  `
    mutation AcceptInvitation($input: AcceptInvitationInput!) {
      acceptInvitation(input: $input) {
        ...SessionParts
      }
    }
  `,
  [sessionParts],
);

export const OPEN_SESSIONS = graphql(`
  query OpenSessions {
    openSessions {
      id
      device
      openedAt
      seenAt
      current
    }
  }
`);

export type OpenSession = ResultOf<typeof OPEN_SESSIONS>['openSessions'][number];

export const END_SESSION = graphql(`
  mutation EndSession($id: ID!) {
    endSession(id: $id) {
      id
    }
  }
`);
