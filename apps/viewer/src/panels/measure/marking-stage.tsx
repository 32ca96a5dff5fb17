import type { PictureSize, Point } from '@linewright/pictures';
import { useRef, type KeyboardEvent, type PointerEvent } from 'react';
import type { Photo } from '../../api/photos.js';
import { goneOn, movedTo, nudged, type Draft } from './marking-draft.js';
import { Loupe } from './loupe.js';
import styles from './measure.module.css';

interface MarkingStageProps {
  photo: Photo;
  of: string;
  draft: Draft;
  onDraft: (change: (before: Draft) => Draft) => void;
}

/** Within so many pixels of the screen a tap takes hold of a point that is there. */
const HOLD = 18;
/** Rays of a comb stand closer than a finger is wide. */
const HOLD_OF_RAYS = 7;

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The picture, on which points are put by finger, mouse or arrow keys, with a loupe of where the active one is. */
export function MarkingStage({ photo, of, draft, onDraft }: MarkingStageProps) {
  const stage = useRef<SVGSVGElement>(null);
  const held = useRef(false);
  const size: PictureSize = photo;
  const at = draft.places[draft.active]?.at ?? null;
  // The picture may be narrower than the room it is given.
  const toPicture = (): DOMMatrix => stage.current!.getScreenCTM()!.inverse();
  const placeOf = ({ clientX, clientY }: PointerEvent): Point => {
    const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(toPicture());
    return { x, y };
  };
  const down = (event: PointerEvent) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    held.current = true;
    const touched = placeOf(event);
    const reach = (draft.kind === 'count' ? HOLD_OF_RAYS : HOLD) * toPicture().a;
    onDraft((before) => {
      const near = before.places.findIndex(
        (one) => one.at !== null && Math.hypot(one.at.x - touched.x, one.at.y - touched.y) < reach,
      );
      return near === -1 ? movedTo(before, touched, size) : { ...before, active: near };
    });
  };
  const move = (event: PointerEvent) => {
    if (!held.current) return;
    const touched = placeOf(event);
    onDraft((before) => movedTo(before, touched, size));
  };
  const up = () => {
    if (held.current) onDraft(goneOn);
    held.current = false;
  };
  const key = (event: KeyboardEvent) => keyed(event, size, onDraft);
  return (
    <div className={styles['stage']}>
      <svg
        ref={stage}
        viewBox={`0 0 ${photo.width} ${photo.height}`}
        tabIndex={0}
        role="application"
        aria-label={`Picture of ${of}: arrow keys move ${draft.places[draft.active]?.name ?? 'the point'}, with Shift ten at a time, Enter goes on to the next point`}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
        onKeyDown={key}
      >
        <image href={photo.path} width={photo.width} height={photo.height} />
        <MarkedPoints draft={draft} size={size} />
      </svg>
      {at !== null && <Loupe photo={photo} at={at} />}
    </div>
  );
}

/** Arrow keys move the active point, Enter goes on. */
function keyed(
  event: KeyboardEvent,
  size: PictureSize,
  onDraft: MarkingStageProps['onDraft'],
): void {
  const step = STEPS[event.key];
  if (step === undefined && event.key !== 'Enter') return;
  event.preventDefault();
  event.stopPropagation();
  const far = event.shiftKey ? 10 : 1;
  if (step !== undefined) onDraft((one) => nudged(one, far * step[0], far * step[1], size));
  else onDraft(goneOn);
}

/** Points with their numbers, and the lines between them; each line light on dark, so that it is seen on any picture. */
export function MarkedPoints({ draft, size }: { draft: Draft; size: PictureSize }) {
  const unit = Math.max(size.width, size.height) / 100;
  return (
    <g aria-hidden="true">
      {linesOf(draft).map(([a, b], k) => (
        <g key={k} className={styles['line']}>
          <line x1={a.x} y1={a.y} x2={b.x} y2={b.y} stroke="#000" strokeWidth={unit} />
          <line x1={a.x} y1={a.y} x2={b.x} y2={b.y} stroke="#fff" strokeWidth={unit / 2} />
        </g>
      ))}
      {draft.places.map(
        ({ at, name }, k) =>
          at !== null && (
            <g key={name} className={styles['line']}>
              <circle cx={at.x} cy={at.y} r={1.2 * unit} stroke="#000" strokeWidth={unit} />
              <circle
                cx={at.x}
                cy={at.y}
                r={1.2 * unit}
                stroke={k === draft.active ? '#ffd400' : '#fff'}
                strokeWidth={unit / 2}
              />
            </g>
          ),
      )}
    </g>
  );
}

/** Rays from the base, the length and its scale, or the outline. */
function linesOf({ kind, places }: Draft): [Point, Point][] {
  const at = (role: string): Point[] =>
    places.flatMap((one) => (one.role === role && one.at !== null ? [one.at] : []));
  const points = at('point');
  const along = (line: readonly Point[]): [Point, Point][] =>
    line.slice(1).map((to, k) => [line[k]!, to]);
  if (kind === 'spread') return points.slice(1).map((to) => [points[0]!, to]);
  if (kind === 'length') return [...along(points), ...along(at('scale'))];
  if (kind === 'colour') return along(points.length > 2 ? [...points, points[0]!] : points);
  return [];
}
