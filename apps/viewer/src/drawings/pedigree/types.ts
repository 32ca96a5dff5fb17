import type { ReactNode } from 'react';
import type { Sex } from '@linewright/pedigree';

export interface PedigreeFish {
  readonly id: string;
  readonly tag: string;
  readonly sex: Sex;
  /** A parent that is not in the list counts as a parent not shown. */
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly spawnId?: string | null;
  /** F from the whole pedigree. Above 0 the parents' line is drawn double, at 0 single; absent: judged from the list. */
  readonly inbreeding?: number | null;
  /** How far that F can be trusted; left out, it is taken as known. */
  readonly basis?: 'known' | 'at-least' | 'unknown';
  /** A parent that nobody knows, drawn because several young share it. */
  readonly unknownParent?: boolean;
  /** One short line under the tag, such as colour or line. */
  readonly note?: string | null;
  /** Dead or culled: struck through, as the standard strikes through the deceased. */
  readonly dead?: boolean;
  /** Drawn because others descend from it: there is no page to open. */
  readonly pageless?: boolean;
}

export interface PlannedBrood {
  /** Where it is a parent of another planned brood; only one may be without. */
  readonly id?: string;
  /** An actual fish, or a planned brood that stands before it. */
  readonly sireId: string;
  readonly damId: string;
  readonly label: string;
  readonly inbreeding?: number | null;
  readonly basis?: 'known' | 'at-least' | 'unknown';
}

export interface PedigreeDrawingProps {
  /** Keep the array's identity while its contents stay: a new array is laid out anew. */
  readonly fish: readonly PedigreeFish[];
  readonly focusId: string;
  readonly scope?: 'relatives' | 'all';
  readonly maxAncestorGenerations?: number;
  readonly maxDescendantGenerations?: number;
  /** `down`: oldest above. `right`: oldest at the left. */
  readonly orientation?: 'down' | 'right';
  /** One path of Wright's: sire … common ancestor … dam. */
  readonly highlightedPath?: readonly string[] | null;
  readonly highlightedPaths?: readonly (readonly string[])[] | null;
  /** Broods that are not bred yet, each after those it comes from: a dotted branch. Keep the array's identity while its contents stay. */
  readonly planned?: readonly PlannedBrood[];
  /** More full sibs without young than this are drawn as one symbol. Default 5. */
  readonly foldSpawnsAbove?: number;
  /** Addresses of small pictures by fish, drawn beside the symbols. Keep the map's identity while its contents stay. */
  readonly pictures?: ReadonlyMap<string, string>;
  /** What shows the chosen fish, beside the words about it. */
  readonly face?: (id: string) => ReactNode;
  readonly onOpenFish: (id: string) => void;
  readonly onSelectFish?: (id: string) => void;
  /** CSS height of the stage. */
  readonly height?: number | string;
  readonly title?: string;
}
