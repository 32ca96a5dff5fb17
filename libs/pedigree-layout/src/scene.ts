import type { Sex } from '@linewright/pedigree';

/** Pixels, x to the right, y downwards. */
export interface ScenePoint {
  readonly x: number;
  readonly y: number;
}

interface SceneBox {
  readonly id: string;
  /** Row of the drawing, 0 = oldest. */
  readonly layer: number;
  /** Place within the row, counted from 0. */
  readonly order: number;
  /** Centre of the box. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Centre of the symbol within the box. */
  readonly symbol: ScenePoint;
}

/** One fish, drawn once however many lines of descent it stands on. */
export interface SceneFish extends SceneBox {
  readonly kind: 'fish';
  readonly tag: string;
  readonly sex: Sex;
  readonly label: readonly string[];
  readonly isFocus: boolean;
  readonly planned: boolean;
  /** No parent of it is in the drawing. */
  readonly founder: boolean;
}

/** Full sibs without young in the drawing, standing together as one symbol with their number in it. */
export interface SceneFold extends SceneBox {
  readonly kind: 'fold';
  readonly count: number;
  readonly memberIds: readonly string[];
  readonly memberTags: readonly string[];
  readonly males: number;
  readonly females: number;
  readonly spawnId: string | null;
}

export type SceneNode = SceneFish | SceneFold;

/** A pair that has young in the drawing (or one parent, where the other is unknown or not shown). */
export interface SceneMating {
  readonly id: string;
  readonly sireId: string | null;
  readonly damId: string | null;
  /** Ids of nodes, folds included. */
  readonly offspringIds: readonly string[];
  /** Mates related by descent: the standard draws their line double. */
  readonly related: boolean;
  readonly planned: boolean;
  /** Where the line of descent leaves the relationship line. */
  readonly x: number;
  readonly y: number;
  /** The relationship line, without the stems that lead to it; empty when it has no length. */
  readonly line: readonly ScenePoint[];
}

/** From a parent to its mating, or from a mating to one of its young. Right-angled polyline, in the direction of descent. */
export interface SceneLink {
  readonly id: string;
  readonly kind: 'parent' | 'offspring';
  readonly matingId: string;
  readonly nodeId: string;
  readonly points: readonly ScenePoint[];
  readonly related: boolean;
  readonly planned: boolean;
}

export interface SceneLayer {
  readonly index: number;
  /** Extent of the row's boxes along the axis of generations (y when drawn downwards, x when drawn to the right). */
  readonly from: number;
  readonly to: number;
  readonly nodeIds: readonly string[];
}

export interface SceneBounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Everything needed to draw, frozen. */
export interface PedigreeScene {
  readonly orientation: 'down' | 'right';
  readonly focusId: string;
  readonly nodes: readonly SceneNode[];
  readonly matings: readonly SceneMating[];
  readonly links: readonly SceneLink[];
  readonly layers: readonly SceneLayer[];
  readonly bounds: SceneBounds;
  /** Crossings left between neighbouring rows after ordering: what the layout could not avoid. */
  readonly crossings: number;
  /** Fish in the slice that are neither ancestors nor descendants and were left out. */
  readonly leftOut: number;
}

export function parentLinkId(matingId: string, fishId: string): string {
  return `parent:${matingId}:${fishId}`;
}

export function offspringLinkId(matingId: string, nodeId: string): string {
  return `offspring:${matingId}:${nodeId}`;
}

export function matingIdOf(sireId: string | null, damId: string | null): string {
  return `mating:${sireId ?? '?'}+${damId ?? '?'}`;
}
