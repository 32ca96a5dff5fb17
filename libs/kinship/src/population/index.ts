export {
  effectiveFounders,
  expectedShares,
  founderContributions,
  sharesFromSource,
  type FounderContribution,
  type FounderSource,
} from './founders.js';
export {
  effectiveAncestors,
  type AncestorContribution,
  type EffectiveAncestors,
} from './effective-ancestors.js';
export { alleleSurvival, type AlleleSurvival } from './allele-survival.js';
export {
  founderGenomeEquivalents,
  genomeEquivalentsByKinship,
  type RetainedFounder,
  type RetainedGenomes,
  type RetentionOptions,
} from './founder-genomes.js';
export {
  dropGenes,
  simulatedAncestralInbreeding,
  simulatedCoancestry,
  simulatedInbreeding,
  simulatedRetention,
  type DropVisitor,
  type Estimate,
  type GeneDropOptions,
  type RelatedGeneDropOptions,
  type SimulatedRetention,
} from './gene-drop.js';
export {
  effectiveSizeForInbreeding,
  effectiveSizeFromFamilies,
  effectiveSizeFromSexes,
  effectiveSizeToKeepAllele,
  harmonicMeanEffectiveSize,
  inbreedingFromDrift,
  rateOfInbreeding,
  realisedEffectiveSize,
  type RealisedEffectiveSize,
} from './effective-size.js';
export {
  generationInterval,
  type GenerationInterval,
  type ParentAge,
} from './generation-interval.js';
export {
  inbreedingByGeneration,
  inbreedingRate,
  meanCompleteness,
  type GenerationInbreeding,
  type GenerationOptions,
  type InbreedingRate,
} from './inbreeding-by-generation.js';
export {
  founderSharesOverTime,
  overContributors,
  rarestFounders,
  type FounderCarriers,
  type OverContributors,
  type Share,
  type SharesOverTime,
} from './balance.js';
export { relationshipMap, type FishFamily, type RelationshipMap } from './family-order.js';
export {
  lineHealth,
  type EffectiveNumbers,
  type Figure,
  type LineHealth,
  type LineHealthInput,
} from './line-health.js';
