export * from './heredity-error.js';
export * from './fraction.js';
export { MOST } from './limits.js';
export * from './locus.js';
export { catalogue, findLocus, looksWithoutLocus } from './catalogue/catalogue.js';
export { sources } from './catalogue/sources.js';
export * from './genotype.js';
export { genotypesShowing, phenotypesOf, type WeightedPhenotype } from './phenotypes.js';
export * from './cross/cross-types.js';
export { cross } from './cross/cross.js';
export { crossGenotypes } from './cross/cross-genotypes.js';
export * from './cross/mixture.js';
export { possibleShares, type PossibleShare } from './cross/possible-shares.js';
export { matingSeries, type MatingSeriesInput } from './cross/mating-series.js';
export { expectedCounts } from './cross/expected-counts.js';
export { chiSquareUpperTail } from './counts/chi-square.js';
export * from './counts/counts.js';
export {
  goodnessOfFit,
  type FitCell,
  type FitOptions,
  type FitResult,
  type FitStatistic,
  type FitVerdict,
} from './counts/goodness-of-fit.js';
export { heterogeneity, type Heterogeneity } from './counts/heterogeneity.js';
export { binomialTest } from './counts/binomial.js';
export * from './counts/brood-size.js';
export * from './counts/rival-hypotheses.js';
export {
  possibleGenotypes,
  showsPhenotype,
  type Answer,
  type PairMember,
  type WarningTrait,
} from './pair/pair-member.js';
export * from './pair/pair-warnings.js';
export {
  expectPhenotypes,
  lociWith,
  type NotComputed,
  type NotComputedReason,
  type PairExpectation,
  type PairExpectationOptions,
} from './pair/expect-phenotypes.js';
export * from './pair/expect-look.js';
export * from './own-loci/define-locus.js';
export { dominanceOfLooks } from './own-loci/dominance-of-looks.js';
export {
  findLocusProblems,
  type LocusProblem,
  type LocusProblemCode,
} from './own-loci/locus-problems.js';
export type * from './carriers/evidence.js';
export type { NetworkInput as CarrierInput } from './carriers/network.js';
export type { Watch } from './carriers/clique-tree.js';
export {
  carrierModel,
  type CarrierMethod,
  CarrierModel,
  type CarrierOptions,
  type GenotypePosterior,
  type DrawnTogether,
  type JointPosterior,
} from './carriers/carrier-model.js';
export {
  findContradiction,
  type Contradiction,
  type ContradictionOptions,
} from './carriers/contradiction.js';
export {
  testMatingSteps,
  testMatingWorth,
  type TestMatingInput,
  type TestMatingWorth,
} from './carriers/test-mating.js';
export * from './carriers/rank-test-matings.js';
export * from './carriers/hidden-young.js';
