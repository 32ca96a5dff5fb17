/** What a device can enter; each is one mutation with an `entryId`. To the right, what tables and devices hold. */
export const entryKinds = {
  DECISION: 'decision',
  SEX: 'sex',
  SCORES: 'scores',
  SHEET_LOOK: 'sheet_look',
  NEW_FISH: 'new_fish',
  LOSS: 'loss',
  CLASS_COUNT: 'class_count',
  UNDO: 'undo',
} as const;

export type EntryKind = (typeof entryKinds)[keyof typeof entryKinds];
