export { daysWritten, findDayOrder, type DayOrder, type OrderFound } from './written-day.js';
export { nearest } from './near.js';
export { plainHeader, roleOfCells, roleOfHeader, type FileRole } from './roles.js';
export {
  dispositionMeant,
  dispositionWritten,
  sexMeant,
  sexWritten,
  type WrittenDisposition,
  type WrittenSex,
} from './words.js';
export { groupFaults, type Cause, type Fault, type FaultyValue } from './faults.js';
export {
  forNextFile,
  noRepairs,
  withAnswers,
  withRepairs,
  type AnswerDone,
  type CauseAnswer,
  type FileRow,
  type FileTable,
  type RepairAnswer,
  type Repairs,
} from './mend.js';
export { shapeOf } from './shape.js';
export { tagForm, tagsAfter, type KnownTag, type TagForm } from './next-tag.js';
export { EXAMPLE_FILE } from './example.js';
