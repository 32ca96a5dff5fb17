import { graphql, type ResultOf } from './graphql.js';

export const DEFINE_LOCUS = graphql(`
  mutation DefineLocus($input: DefineLocusInput!) {
    defineLocus(input: $input) {
      id
      recordId
    }
  }
`);

export const REVISE_LOCUS = graphql(`
  mutation ReviseLocus($input: ReviseLocusInput!) {
    reviseLocus(input: $input) {
      id
      version
    }
  }
`);

export const WITHDRAW_LOCUS = graphql(`
  mutation WithdrawLocus($input: WithdrawInput!) {
    withdrawLocus(input: $input) {
      id
    }
  }
`);

export const RESTORE_LOCUS = graphql(`
  mutation RestoreLocus($id: ID!) {
    restoreLocus(id: $id) {
      id
    }
  }
`);

export const LOCUS_VERSIONS = graphql(`
  query LocusVersions($locusId: String!) {
    locusVersions(locusId: $locusId) {
      version
      at
      by
      locus {
        name
        note
        isWithdrawn
        alleles {
          symbol
          name
        }
        phenotypes {
          genotype
          phenotype
        }
      }
    }
  }
`);

export const LOCUS_SETTINGS = graphql(`
  query LocusSettings {
    locusSettings {
      id
      locusId
      lineId
      misScoring
      revision
      frequencies {
        alleleId
        frequency
      }
    }
    lines {
      id
      code
      name
    }
  }
`);

export type LocusSettings = ResultOf<typeof LOCUS_SETTINGS>;
export type LocusSetting = LocusSettings['locusSettings'][number];

export const SET_LOCUS_SETTING = graphql(`
  mutation SetLocusSetting($input: SetLocusSettingInput!) {
    setLocusSetting(input: $input) {
      id
    }
  }
`);

export const WITHDRAW_LOCUS_SETTING = graphql(`
  mutation WithdrawLocusSetting($input: WithdrawInput!) {
    withdrawLocusSetting(input: $input) {
      id
    }
  }
`);
