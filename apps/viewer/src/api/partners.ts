import { graphql, type ResultOf } from './graphql.js';

const partnerParts = graphql(`
  fragment PartnerParts on PartnerInstall {
    id
    words
    pairedAt
    comparedAt
    endedAt
    endedReason
    folder
    lookedAt
    problem
    strangers
    person {
      id
      name
    }
    lines {
      lineId
      lineCode
      sentAt
      readAt
      taken
      leftOut
      photosWaiting
      problem
      line {
        id
        code
      }
    }
  }
`);

export type Partner = ResultOf<typeof partnerParts>;
export type PartnerLine = Partner['lines'][number];

export const OWN_INSTALL = graphql(`
  query OwnInstall {
    ownInstall {
      code
      words
      qr {
        size
        path
      }
    }
  }
`);

export const PARTNER_INSTALLS = graphql(
  `
    query PartnerInstalls {
      partnerInstalls {
        ...PartnerParts
      }
    }
  `,
  [partnerParts],
);

export const PAIR_INSTALL = graphql(`
  mutation PairInstall($input: PairInstallInput!) {
    pairInstall(input: $input) {
      id
    }
  }
`);

export const CONFIRM_WORDS = graphql(`
  mutation ConfirmInstallWords($installId: ID!) {
    confirmInstallWords(installId: $installId) {
      id
    }
  }
`);

export const END_INSTALL = graphql(`
  mutation EndInstall($installId: ID!, $reason: String) {
    endInstall(installId: $installId, reason: $reason) {
      id
    }
  }
`);

export const SET_EXCHANGE_FOLDER = graphql(`
  mutation SetExchangeFolder($installId: ID!, $folder: String) {
    setExchangeFolder(installId: $installId, folder: $folder) {
      id
    }
  }
`);

export const EXCHANGE_NOW = graphql(`
  mutation ExchangeNow($installId: ID!) {
    exchangeNow(installId: $installId) {
      id
    }
  }
`);

export const TAKE_OFFERED_LINE = graphql(`
  mutation TakeOfferedLine($installId: ID!, $lineId: ID!) {
    takeOfferedLine(installId: $installId, lineId: $lineId) {
      id
    }
  }
`);
