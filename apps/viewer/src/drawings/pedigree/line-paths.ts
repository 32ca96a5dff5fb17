import type {
  PathHighlight,
  PedigreeScene,
  SceneLink,
  ScenePoint,
} from '@linewright/pedigree-layout';

const CORNER = 6;

/** A polyline as SVG path data, corners rounded so that a turn cannot be taken for a crossing. */
export function roundedPath(points: readonly ScenePoint[]): string {
  const first = points[0];
  if (first === undefined) return '';
  let path = `M${first.x} ${first.y}`;
  for (let i = 1; i < points.length; i++) {
    const before = points[i - 1]!;
    const at = points[i]!;
    const after = points[i + 1];
    if (after === undefined) {
      path += `L${at.x} ${at.y}`;
      continue;
    }
    const radius = Math.min(CORNER, distance(before, at) / 2, distance(at, after) / 2);
    const enter = towards(at, before, radius);
    const leave = towards(at, after, radius);
    path += `L${enter.x} ${enter.y}Q${at.x} ${at.y} ${leave.x} ${leave.y}`;
  }
  return path;
}

function distance(a: ScenePoint, b: ScenePoint): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function towards(from: ScenePoint, to: ScenePoint, by: number): ScenePoint {
  const length = distance(from, to);
  if (length === 0) return from;
  return {
    x: from.x + ((to.x - from.x) * by) / length,
    y: from.y + ((to.y - from.y) * by) / length,
  };
}

export interface DrawnStep {
  readonly key: string;
  readonly path: string;
  /** Where the step's number stands: on the line of the younger fish alone, just above it. */
  readonly badge: ScenePoint | null;
  readonly number: number;
}

/** The lines of one highlighted path, step by step and then the closing of the loop, without repeats. */
export function highlightLines(
  scene: PedigreeScene,
  highlight: PathHighlight,
): readonly DrawnStep[] {
  const links = new Map(scene.links.map((link) => [link.id, link] as const));
  const walked = new Set<string>();
  const inked = new Set<string>();
  const drawn: DrawnStep[] = [];
  for (const step of highlight.steps) {
    const parts = step.linkIds.map((id) => links.get(id)!);
    const walk = parts.flatMap((link, i) => inDirection(link, step.direction, i));
    step.linkIds.forEach((id) => walked.add(id));
    drawn.push({
      key: `step-${step.number}`,
      path: freshPath(walk, inked),
      badge: besideYounger(parts[step.direction === 'up' ? 0 : 1]),
      number: step.number,
    });
  }
  const closing = highlight.linkIds.filter((id) => !walked.has(id));
  for (const id of closing) {
    const link = links.get(id);
    if (link !== undefined)
      drawn.push({
        key: `close-${id}`,
        path: freshPath(link.points, inked),
        badge: null,
        number: 0,
      });
  }
  return drawn;
}

/** Only the runs not inked before: dashes drawn twice over one another, out of step, would look like a solid line. */
function freshPath(points: readonly ScenePoint[], inked: Set<string>): string {
  const pieces: ScenePoint[][] = [];
  let piece: ScenePoint[] = [];
  for (let i = 1; i < points.length; i++) {
    const ends = [points[i - 1]!, points[i]!].map((at) => `${at.x.toFixed(1)},${at.y.toFixed(1)}`);
    const key = ends.sort().join(' ');
    if (inked.has(key)) {
      if (piece.length > 0) pieces.push(piece);
      piece = [];
      continue;
    }
    inked.add(key);
    if (piece.length === 0) piece.push(points[i - 1]!);
    piece.push(points[i]!);
  }
  if (piece.length > 0) pieces.push(piece);
  return pieces.map(roundedPath).join('');
}

function inDirection(
  link: SceneLink,
  direction: 'up' | 'down',
  part: number,
): readonly ScenePoint[] {
  const points = direction === 'down' ? link.points : [...link.points].reverse();
  return part === 0 ? points : points.slice(1);
}

/** Middle of the last run of a line from a mating to its young: no other step walks it. */
function besideYounger(link: SceneLink | undefined): ScenePoint | null {
  const a = link?.points.at(-2);
  const b = link?.points.at(-1);
  if (a === undefined || b === undefined) return null;
  // A long drop is marked near its end, or the number would stand between the parents.
  const back = Math.min(12, distance(a, b) / 2);
  return towards(b, a, back);
}
