import { STARTING_PURPOSE, type LinePurpose } from '@linewright/mating';
import { wholePurpose } from '../stock/purpose-rows.js';
import type { LinePurposeRow } from '../stock/rows/line-purpose.entity.js';
import type { LinePurposeModel, LinePurposeVersionModel } from './line-purpose.model.js';

const toContent = (purpose: LinePurpose): LinePurposeModel => {
  const { traits, looks, rules, ...figures } = purpose;
  return {
    ...figures,
    traits: [...traits],
    looks: looks.map(({ look, ...aim }) => ({
      ...aim,
      show: Object.entries(look.show).map(([locusId, phenotype]) => ({ locusId, phenotype })),
    })),
    rules: {
      ages: rules.ages,
      maleRest: rules.rest.male,
      femaleRest: rules.rest.female,
      bodyLengthRatio: rules.bodyLengthRatio,
      knownAncestryFrom: rules.knownAncestryFrom,
    },
  };
};

export const toPurposeVersion = (row: LinePurposeRow): LinePurposeVersionModel => ({
  version: row.version,
  at: row.at,
  by: row.byName,
  note: row.note,
  content: toContent(wholePurpose(row)),
});

/** Stands for the version of a line that nobody has said anything about. */
export const unsaidPurpose = (): LinePurposeVersionModel => ({
  version: 0,
  at: null,
  by: null,
  note: null,
  content: toContent(STARTING_PURPOSE),
});

/** What a form sent, in the lib's shape; only what is known is taken over. */
export const toPurpose = (sent: LinePurposeModel): LinePurpose => ({
  traits: sent.traits.map(({ traitId, better, low, high, worth }) => ({
    traitId: traitId.toLowerCase(),
    better,
    low: low ?? null,
    high: high ?? null,
    worth,
  })),
  looks: sent.looks.map(({ show, wanted, worth, required }) => ({
    look: { show: Object.fromEntries(show.map(({ locusId, phenotype }) => [locusId, phenotype])) },
    wanted,
    worth,
    required,
  })),
  ceiling: sent.ceiling,
  kinshipRise: sent.kinshipRise ?? null,
  broods: sent.broods,
  vessels: sent.vessels ?? null,
  broodsPerFish: sent.broodsPerFish,
  fry: sent.fry ?? null,
  keep: sent.keep,
  earliest: sent.earliest ?? null,
  latest: sent.latest ?? null,
  inbreedingCost: sent.inbreedingCost ?? null,
  rules: {
    ages: { ...sent.rules.ages },
    rest: { male: { ...sent.rules.maleRest }, female: { ...sent.rules.femaleRest } },
    bodyLengthRatio: sent.rules.bodyLengthRatio ? { ...sent.rules.bodyLengthRatio } : null,
    knownAncestryFrom: sent.rules.knownAncestryFrom,
  },
});
