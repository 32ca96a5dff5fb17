export { KinshipError, type KinshipErrorCode } from './kinship-error.js';
export {
  inbreedingCoefficients,
  tabularInbreeding,
  tellInbreeding,
  tracedInbreeding,
  type InbreedingOptions,
} from './inbreeding.js';
export {
  groupUnknownParents,
  type FounderOptions,
  type FounderRelationship,
  type GroupedPedigree,
  type UnknownParentGroups,
} from './founder-relationship.js';
export { tabularRelationship } from './tabular-relationship.js';
export { coancestry, type CoancestryOptions } from './coancestry.js';
export {
  meanCoancestryBetween,
  meanKinship,
  multiplyRelationship,
  type ProductOptions,
} from './relationship-product.js';
export { coancestryAmongGroups } from './coancestry-among-groups.js';
export { coancestryBlock } from './coancestry-block.js';
export * from './explain/index.js';
export * from './population/index.js';
export { countingOrder } from './counting-order.js';
export { relationshipInverse, type SparseMatrix } from './relationship-inverse.js';
export { withinFamilyVariance } from './within-family-variance.js';
export { GrowingKinship, type AddedSpawn } from './growing-kinship.js';
