import { graphql, type ResultOf } from './graphql.js';
import { historyParts } from './history.js';

const partnerParts = graphql(`
  fragment PartnerParts on PartnerInstall {
    id
    words
    pairedAt
    comparedAt
    endedAt
    endedReason
    refusedAt
    refusedReason
    underWay
    everyMinutes
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
      cameAt
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

export const RENEW_INSTALL_KEYS = graphql(`
  mutation RenewInstallKeys($password: String!) {
    renewInstallKeys(password: $password) {
      words
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
      underWay
    }
  }
`);

export const WHAT_CAME = graphql(
  `
    query WhatCame($installId: ID!, $lineId: ID!) {
      whatCame(installId: $installId, lineId: $lineId) {
        ...HistoryParts
      }
    }
  `,
  [historyParts],
);

export const TAKE_BACK_WHAT_CAME = graphql(`
  mutation TakeBackWhatCame($installId: ID!, $lineId: ID!) {
    takeBackWhatCame(installId: $installId, lineId: $lineId) {
      taken
      left
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
