import type { SceneBounds } from '@linewright/pedigree-layout';

export const LEAST_SCALE = 0.08;
export const MOST_SCALE = 3;
/** Below this, a first look shows the surroundings of the focus rather than the whole drawing too small to read. */
export const READABLE_SCALE = 0.75;
/** A whole drawing that fits at this scale or more is shown whole at first. */
const WHOLE_SCALE = 0.64;
/** A small drawing is not blown up beyond this. */
const FITTED_SCALE_AT_MOST = 1.25;
/** How near the edge of the stage, in pixels, a fish may stand before the drawing is moved. */
const REVEAL_MARGIN = 60;

interface Place {
  readonly x: number;
  readonly y: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** What stands in the middle of the stage, in units of the scene, and how large a unit is in pixels. */
export interface View extends Place {
  readonly scale: number;
}

/** The whole scene, as large as the stage allows. */
export function wholeView(bounds: SceneBounds, stage: Size): View {
  const { x, y, width, height } = bounds;
  return {
    x: x - 18 + width / 2,
    y: y + height / 2,
    scale: Math.min(
      FITTED_SCALE_AT_MOST,
      (stage.width - 24) / (width + 60),
      (stage.height - 24) / (height + 24),
    ),
  };
}

/** The middle of a window of `room` that shows `at` and nothing beyond the stretch, where the stretch fills it. */
function within(at: number, low: number, size: number, room: number): number {
  if (size <= room) return low + size / 2;
  return Math.min(low + size - room / 2, Math.max(low + room / 2, at));
}

/** The whole scene where it can be read so; or else the surroundings of the focus, at a readable size. */
export function firstView(bounds: SceneBounds, focus: Place | undefined, stage: Size): View {
  const whole = wholeView(bounds, stage);
  if (whole.scale >= WHOLE_SCALE) return whole;
  const { x, y, width, height } = bounds;
  const at = focus ?? { x: x + width / 2, y: y + height / 2 };
  return {
    x: within(at.x, x - 50, width + 70, stage.width / READABLE_SCALE),
    y: within(at.y, y - 14, height + 28, stage.height / READABLE_SCALE),
    scale: READABLE_SCALE,
  };
}

function shiftInto(at: number, size: number): number {
  if (at < REVEAL_MARGIN) return REVEAL_MARGIN - at;
  return at > size - REVEAL_MARGIN ? size - REVEAL_MARGIN - at : 0;
}

/** How far the drawing must move, in pixels, for a point of the stage to be well inside it. */
export function shiftToReveal(point: Place, stage: Size): Place {
  return { x: shiftInto(point.x, stage.width), y: shiftInto(point.y, stage.height) };
}
