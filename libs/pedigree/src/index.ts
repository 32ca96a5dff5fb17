export * from './pedigree.js';
export { basisOfInbreeding, unknownOrigin, type InbreedingBasis } from './unknown-origin.js';
export { PedigreeError } from './pedigree-error.js';
export type { PedigreeErrorCode, PedigreeProblem, PedigreeProblemCode } from './pedigree-error.js';
export type { PedigreeColumns, PedigreeOptions } from './columns.js';
export {
  buildPedigree,
  findColumnProblems,
  findProblems,
  pedigreeFromArrays,
  pedigreeFromColumns,
  pedigreeFromRows,
  type PedigreeRows,
} from './build-pedigree.js';
export {
  findBroodConflicts,
  pedigreeOfBroods,
  type BroodConflict,
  type BroodRows,
  type HiddenParent,
  type ParentRole,
} from './broods.js';
export {
  completeGenerationEquivalents,
  completenessByGeneration,
  generationDepth,
} from './generations.js';
export { ancestors, degreesOfRelationship, descendants, relativesOfDegree } from './relatives.js';
export { subset, withAncestors } from './subset.js';
export { offspringLists, type OffspringLists } from './offspring.js';
export { fileText, hasBrokenLetters, lettersToCheck, textEncoding } from './file/file-text.js';
export type { FileText, TextEncoding, UnicodeDecoder } from './file/file-text.js';
export { withGuard, withoutGuard } from './file/formula-guard.js';
export { looseSpelling } from './file/spelling.js';
export { decimalIn, isCalendarDate, momentIn } from './file/written.js';
export { RandomBits, seededChance, type Chance } from './random/random-bits.js';
