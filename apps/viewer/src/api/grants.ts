import { graphql, type ResultOf } from './graphql.js';

const grantParts = graphql(`
  fragment GrantParts on LineGrant {
    person {
      id
      name
    }
    level
    scores
    photos
    notes
    water
    place
    prices
    ancestors
    grantedAt
  }
`);

export type Grant = ResultOf<typeof grantParts>;

export const LINE_GRANTS = graphql(
  `
    query LineGrants($lineId: ID) {
      lineGrants(lineId: $lineId) {
        ...GrantParts
      }
    }
  `,
  [grantParts],
);

export const GRANT_LINE = graphql(
  `
    mutation GrantLine($input: GrantLineInput!) {
      grantLine(input: $input) {
        ...GrantParts
      }
    }
  `,
  [grantParts],
);

export const END_LINE_GRANT = graphql(
  `
    mutation EndLineGrant($personId: ID!, $lineId: ID!) {
      endLineGrant(personId: $personId, lineId: $lineId) {
        ...GrantParts
      }
    }
  `,
  [grantParts],
);
