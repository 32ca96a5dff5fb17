import type { Heads, Marking, MarkingKind, PictureSize, Point } from '@linewright/pictures';
import type { Trait } from '../../api/traits.js';

/** What is being marked: a place for each point, by name, in the order in which they are asked for. */
export interface Draft {
  readonly kind: MarkingKind;
  readonly places: readonly Place[];
  /** Of the place that a tap or an arrow key moves. */
  readonly active: number;
  readonly heads: Heads;
  readonly millimetres: string;
  readonly tolerance: number;
  readonly flat: boolean;
}

export interface Place {
  readonly name: string;
  readonly role: 'point' | 'scale' | 'colour';
  readonly at: Point | null;
}

const place = (name: string, role: Place['role'] = 'point'): Place => ({ name, role, at: null });

const FIRST: Readonly<Record<MarkingKind, readonly Place[]>> = {
  spread: [place('Base of the tail'), place('Upper ray'), place('Lower ray')],
  length: [
    ...[place('Where it begins'), place('Where it ends')],
    ...[place('Scale begins', 'scale'), place('Scale ends', 'scale')],
  ],
  count: [place('Ray 1')],
  colour: [place('The colour', 'colour'), place('Outline 1')],
};

export const emptyDraft = (kind: MarkingKind): Draft => ({
  ...{ kind, places: FIRST[kind], active: 0, heads: 'left', millimetres: '' },
  ...{ tolerance: 25, flat: false },
});

/** What a trait is measured by on a picture, by its kind and unit; null for one that is not. */
export function kindFor({ kind, unit }: Pick<Trait, 'kind' | 'unit'>): MarkingKind | null {
  if (kind === 'COUNT') return 'count';
  if (kind !== 'MEASURED') return null;
  const plain = (unit ?? '').trim().toLowerCase();
  if (['°', 'degrees', 'degree', 'deg'].includes(plain)) return 'spread';
  if (['mm', 'millimetres', 'millimeters'].includes(plain)) return 'length';
  return ['%', 'per cent', 'percent'].includes(plain) ? 'colour' : null;
}

const growing = (kind: MarkingKind): string | null =>
  kind === 'count' ? 'Ray' : kind === 'colour' ? 'Outline' : null;

const within = ({ x, y }: Point, { width, height }: PictureSize): Point => ({
  x: Math.min(width, Math.max(0, x)),
  y: Math.min(height, Math.max(0, y)),
});

/** Puts the active point there. */
export const movedTo = (draft: Draft, at: Point, size: PictureSize): Draft => ({
  ...draft,
  places: draft.places.map((one, k) =>
    k === draft.active ? { ...one, at: within(at, size) } : one,
  ),
});

/** A step from where the active point is; one that is nowhere yet begins in the middle. */
export function nudged(draft: Draft, dx: number, dy: number, size: PictureSize): Draft {
  const at = draft.places[draft.active]?.at ?? null;
  if (at === null) return movedTo(draft, { x: size.width / 2, y: size.height / 2 }, size);
  return movedTo(draft, { x: at.x + dx, y: at.y + dy }, size);
}

/** On to the first point that is nowhere yet; of rays and outlines there is always one more. */
export function goneOn(draft: Draft): Draft {
  const next = draft.places.findIndex(({ at }) => at === null);
  if (next !== -1) return { ...draft, active: next };
  const name = growing(draft.kind);
  if (name === null) return draft;
  const points = draft.places.filter(({ role }) => role === 'point').length;
  const places = [...draft.places, place(`${name} ${points + 1}`)];
  return { ...draft, places, active: places.length - 1 };
}

/** Takes the point that was put last away again. */
export function oneLess(draft: Draft): Draft {
  const last = draft.places.findLastIndex(({ at }) => at !== null);
  if (last === -1) return draft;
  const places = draft.places.map((one, k) => (k === last ? { ...one, at: null } : one));
  return { ...draft, places, active: last };
}

/** The marking so far; null while a point or the scale is missing. */
export function markingOf(draft: Draft): Marking | null {
  const { kind, places, heads, flat, tolerance } = draft;
  const at = (role: Place['role']): Point[] =>
    places.flatMap((one) => (one.role === role && one.at !== null ? [one.at] : []));
  const points = at('point');
  const [from, to] = at('scale');
  const [colour] = at('colour');
  const fewest = { spread: 3, length: 2, count: 1, colour: 3 }[kind];
  if (points.length < fewest) return null;
  if (kind === 'spread') return { kind, points, heads, flat };
  if (kind === 'count') return { kind, points, flat };
  if (kind === 'colour')
    return colour === undefined ? null : { kind, points, colour: { at: colour, tolerance }, flat };
  const millimetres = Number(draft.millimetres.replace(',', '.'));
  if (from === undefined || to === undefined || draft.millimetres.trim() === '') return null;
  return { kind, points, scale: { from, to, millimetres }, flat };
}
