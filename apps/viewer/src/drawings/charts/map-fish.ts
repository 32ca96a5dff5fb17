import type { Sex } from '@linewright/pedigree';

export interface MapFish {
  readonly id: string;
  readonly tag: string;
  readonly sex: Sex;
  /** Neighbours of one group are set off by lines, and the group is named. */
  readonly group?: string | null;
  /** False when fish of unknown origin are behind it: its coancestries are lowest values then, and the words say so. */
  readonly originKnown?: boolean;
}
