/** A fin as a fan of rays: where it grows from, which way its first and its last ray point, and how long they are. */
export interface Fan {
  readonly from: Point;
  readonly to: Point;
  /** Degrees, clockwise from the tail's end of the page. */
  readonly first: number;
  readonly last: number;
  readonly firstLength: number;
  readonly lastLength: number;
  readonly rays: number;
}

export type Point = readonly [x: number, y: number];

/** How much of the web between two rays is left at their ends, as a share of their length: 1 is a full web. */
export type Web = number;

/** Points are written to a tenth of a unit: a fish is some two hundred wide. */
const written = ([x, y]: Point): string => `${Math.round(10 * x) / 10} ${Math.round(10 * y) / 10}`;

const between = (a: number, b: number, share: number): number => a + (b - a) * share;

/** Base and tip at a share of the way over the fan; `reach` lengthens or shortens the ray. */
function rayAt(
  fan: Fan,
  share: number,
  reach: number,
): { readonly base: Point; readonly tip: Point } {
  const angle = (between(fan.first, fan.last, share) * Math.PI) / 180;
  const length = reach * between(fan.firstLength, fan.lastLength, share);
  const base: Point = [
    between(fan.from[0], fan.to[0], share),
    between(fan.from[1], fan.to[1], share),
  ];
  return {
    base,
    tip: [base[0] + length * Math.cos(angle), base[1] + length * Math.sin(angle)],
  };
}

/**
 * The outline of a fan as an SVG path: along its base, out along the first ray, from tip to tip, and back.
 * @param web share of the web that is left between rays; above 1 the edge bulges, as a ruffled one does.
 * @param reach share of the rays' length that is drawn.
 */
export function fanOutline(fan: Fan, web: Web, reach = 1): string {
  const steps = Array.from({ length: fan.rays - 1 }, (_, k) => k);
  const start = rayAt(fan, 0, reach);
  const edges = steps.map((k) => {
    const middle = rayAt(fan, (k + 0.5) / (fan.rays - 1), reach * web);
    const next = rayAt(fan, (k + 1) / (fan.rays - 1), reach);
    return `Q${written(middle.tip)} ${written(next.tip)}`;
  });
  return `M${written(start.base)}L${written(start.tip)}${edges.join('')}L${written(fan.to)}Z`;
}

/** The rays of a fan as one SVG path, from `inner` to `outer` of their length. */
export function fanRays(fan: Fan, outer = 1): string {
  return Array.from({ length: fan.rays }, (_, k) => {
    const { base, tip } = rayAt(fan, k / (fan.rays - 1), outer);
    return `M${written(base)}L${written(tip)}`;
  }).join('');
}

/** A part of a fan, from one share of the way over it to another, with as many of its rays. */
export function partOfFan(fan: Fan, from: number, to: number): Fan {
  return {
    from: rayAt(fan, from, 0).base,
    to: rayAt(fan, to, 0).base,
    first: between(fan.first, fan.last, from),
    last: between(fan.first, fan.last, to),
    firstLength: between(fan.firstLength, fan.lastLength, from),
    lastLength: between(fan.firstLength, fan.lastLength, to),
    rays: Math.max(2, Math.round((to - from) * (fan.rays - 1)) + 1),
  };
}
