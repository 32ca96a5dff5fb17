import { graphql, type ResultOf } from './graphql.js';

export const OWN_DATA = graphql(`
  query OwnData {
    ownData {
      tables {
        title
        count
      }
      photos
      pseudonym
      backups {
        count
        folders
      }
      heirs {
        id
        name
      }
      others
    }
  }
`);

export type OwnData = ResultOf<typeof OWN_DATA>['ownData'];

export const ERASE_OWN_DATA = graphql(`
  mutation EraseOwnData($password: String!, $input: EraseOwnDataInput!) {
    eraseOwnData(password: $password, input: $input) {
      signedIn
    }
  }
`);
