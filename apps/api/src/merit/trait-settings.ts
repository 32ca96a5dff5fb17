import { fishSizePrior, flatPrior, type HeritabilityPrior } from '@linewright/merit';
import type { TraitKind } from '../graphql/enums.js';
import type { TraitModelRow } from '../stock/rows/trait-model.entity.js';

/** What a trait's breeding values are worked out with. */
export type TraitSettings = Pick<
  TraitModelRow,
  | 'season'
  | 'age'
  | 'sex'
  | 'linesApart'
  | 'brood'
  | 'place'
  | 'looks'
  | 'scorer'
  | 'besideTraitIds'
  | 'prior'
>;

/**
 * What is usual for a kind of trait. Measures and counts grow with age and differ between the sexes, and published heritabilities of the
 * size of fish stand for them; grades and faults have none.
 */
export const usualSettings = (kind: TraitKind): TraitSettings => {
  const size = kind === 'measured' || kind === 'count';
  return {
    season: true,
    age: size,
    sex: true,
    linesApart: true,
    brood: true,
    place: false,
    looks: true,
    scorer: false,
    besideTraitIds: [],
    prior: size ? 'fish_size' : 'flat',
  };
};

const priors: Readonly<Record<TraitSettings['prior'], HeritabilityPrior>> = {
  fish_size: fishSizePrior,
  flat: flatPrior,
};

export const priorOf = ({ prior }: Pick<TraitSettings, 'prior'>): HeritabilityPrior =>
  priors[prior];

/** The settings of a row alone. */
export const settingsIn = (row: TraitSettings): TraitSettings => ({
  season: row.season,
  age: row.age,
  sex: row.sex,
  linesApart: row.linesApart,
  brood: row.brood,
  place: row.place,
  looks: row.looks,
  scorer: row.scorer,
  besideTraitIds: row.besideTraitIds,
  prior: row.prior,
});
