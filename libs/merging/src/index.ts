export { compareStamps, joinStamps, type Stamp, type StampOrder } from './stamp.js';
export { isSettled, mergeParts, type Part, type Version } from './part.js';
export {
  changedHere,
  decided,
  type MergedRecord,
  mergeRecords,
  type OwnCount,
  standingTexts,
  unsettledParts,
} from './record.js';
