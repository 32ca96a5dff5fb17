export { pack, type Packed, unpack } from './packed.js';
export { compareStamps, joinStamps, type Stamp, type StampOrder } from './stamp.js';
export { isSettled, mergeParts, type Part, type Version } from './part.js';
export {
  changedHere,
  decided,
  type MergedRecord,
  mergeRecords,
  type OwnCount,
  standingTexts,
  type Texts,
  unsettledParts,
} from './record.js';
