import { graphql, type ResultOf } from './graphql.js';

const vesselFields = graphql(`
  fragment VesselFields on Vessel {
    id
    revision
    code
    kind
    litres
    rack
    shelf
    position
    note
    withdrawn {
      at
      reason
    }
    stays {
      id
      cameAt
      company
      fish {
        id
        tag
        sex
        hatchDate
        disposition
      }
      spawn {
        id
        tag
      }
    }
  }
`);

export type Vessel = ResultOf<typeof vesselFields>;

export const VESSELS = graphql(
  `
    query Vessels($after: String) {
      vessels(first: 200, after: $after) {
        edges {
          node {
            ...VesselFields
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
        totalCount
      }
    }
  `,
  [vesselFields],
);

export const VESSEL_CODES = graphql(`
  query VesselCodes($after: String) {
    vessels(first: 200, after: $after) {
      edges {
        node {
          id
          code
        }
      }
      pageInfo {
        hasNextPage
        endCursor
      }
      totalCount
    }
  }
`);

export const VESSEL_STAYS = graphql(`
  query VesselStays($vesselId: ID, $fishId: ID, $after: String) {
    vesselStays(first: 20, vesselId: $vesselId, fishId: $fishId, after: $after) {
      edges {
        node {
          id
          cameAt
          leftAt
          company
          byName
          fish {
            id
            tag
          }
          spawn {
            id
            tag
          }
          vessel {
            id
            code
          }
        }
      }
      pageInfo {
        hasNextPage
        endCursor
      }
      totalCount
    }
  }
`);

export const SCANNED_CODE = graphql(
  `
    query ScannedCode($text: String!) {
      scannedCode(text: $text) {
        vessel {
          ...VesselFields
        }
        fish {
          id
          tag
        }
        ofAnotherHouse
        houseName
        unknownCode
      }
    }
  `,
  [vesselFields],
);

export type ScannedCode = ResultOf<typeof SCANNED_CODE>['scannedCode'];

export const CREATE_VESSELS = graphql(`
  mutation CreateVessels($input: [CreateVesselInput!]!) {
    createVessels(input: $input) {
      id
      code
    }
  }
`);

export const CORRECT_VESSEL = graphql(`
  mutation CorrectVessel($input: CorrectVesselInput!) {
    correctVessel(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_VESSEL = graphql(`
  mutation WithdrawVessel($input: WithdrawInput!) {
    withdrawVessel(input: $input) {
      id
    }
  }
`);

export const MOVE_TO_VESSEL = graphql(`
  mutation MoveToVessel($input: MoveToVesselInput!) {
    moveToVessel(input: $input) {
      id
      code
    }
  }
`);
