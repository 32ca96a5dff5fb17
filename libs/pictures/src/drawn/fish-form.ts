import { type Fan, fanOutline, fanRays, partOfFan, type Web } from './fin-fan.js';
import type { FishLook } from './fish-look.js';

/** Room that every fish is drawn in, so that one is as large as another beside it. */
export const FISH_BOX = { x: 4, y: -10, width: 184, height: 142 } as const;

type Shape = Pick<FishLook, 'fins' | 'tail' | 'web' | 'pectorals' | 'sex' | 'spread'>;

/** Outlines of a fish that looks to the left, as SVG paths. */
export interface FishForm {
  readonly body: string;
  /** The body behind the gill cover, where scales shine. */
  readonly flank: string;
  readonly scales: string;
  readonly fins: string;
  readonly rays: string;
  /** The half of the fins next to the body. */
  readonly innerFins: string;
  readonly innerRays: string;
  /** Where a marbled fish is pale. */
  readonly patchesOfBody: string;
  readonly patchesOfFins: string;
  readonly ventrals: string;
  readonly pectoral: string;
  readonly gill: string;
  readonly mouth: string;
  readonly spot: string;
}

const WEB: Readonly<Record<FishLook['web'], Web>> = {
  full: 1.02,
  comb: 0.72,
  crown: 0.3,
  ruffled: 1.22,
};
/** Share of a ray that is coloured where fins are banded, and up to which few iridocytes reach. */
const INNER = 0.56;
/** Two parts of the flank. */
const PATCHES = 'M58 47q14-5 20 4q-4 10-14 8q-9-3-6-12ZM84 62q12-3 14 4q-4 8-13 6q-6-4-1-10Z';

/** Lengths of rays: of tail, of the fin on the back and of the one below. Females and short-finned fish have half. */
const lengthsOf = ({ fins, sex }: Shape): { tail: number; back: number; below: number } => {
  if (sex === 'female')
    return fins === 'long' ? { tail: 40, back: 20, below: 23 } : { tail: 31, back: 16, below: 19 };
  return fins === 'long' ? { tail: 66, back: 44, below: 46 } : { tail: 38, back: 24, below: 29 };
};

/** The body of a double tail is shorter. */
const endOf = ({ tail }: Shape): number => (tail === 'double' ? 104 : 112);

export function fishForm(shape: Shape): FishForm {
  const fans = fansOf(shape);
  const web = WEB[shape.web];
  const outline = (reach?: number): string =>
    fans.map((fan) => fanOutline(fan, web, reach)).join('');
  const end = endOf(shape);
  return {
    body: bodyOf(shape, end),
    flank: flankOf(shape, end),
    scales: scalesOf(shape, end),
    fins: outline(),
    rays: fans.map((fan) => fanRays(fan)).join(''),
    innerFins: outline(INNER),
    innerRays: fans.map((fan) => fanRays(fan, INNER)).join(''),
    patchesOfBody: PATCHES,
    patchesOfFins: fans.map((fan) => fanOutline(partOfFan(fan, 0.3, 0.62), web, 0.94)).join(''),
    ventrals: ventralsOf(shape),
    pectoral: pectoralOf(shape),
    gill: 'M47 48Q55 60 48 74',
    mouth: 'M22 59.5Q26 61.5 29 60.5',
    spot: 'M82 31a5 5 0 1 0 0.1 0Z',
  };
}

/** Tail, back, below. */
function fansOf(shape: Shape): Fan[] {
  const { tail, back, below } = lengthsOf(shape);
  const end = endOf(shape);
  const half = shape.spread / 2;
  const tailFan: Fan = {
    ...{ from: [end, 55.5], to: [end, 66.5], first: -half, last: half },
    ...{ firstLength: tail, lastLength: tail, rays: 13 },
  };
  const isDouble = shape.tail === 'double';
  const backFan: Fan = {
    ...(isDouble
      ? { from: [52, 43.5] as const, to: [end - 8, 51] as const, rays: 13 }
      : { from: [68, 43] as const, to: [92, 47.5] as const, rays: 7 }),
    ...{ first: -118, last: -28, firstLength: 0.6 * back, lastLength: back },
  };
  const belowFan: Fan = {
    // Told the same way round as the others: where two fans overlap, both are filled.
    ...{ from: [end - 6, 71], to: [62, 78.5], first: 38, last: 104, rays: 12 },
    ...{ firstLength: below, lastLength: 0.55 * below },
  };
  const lobes = isDouble ? [partOfFan(tailFan, 0, 0.44), partOfFan(tailFan, 0.56, 1)] : [tailFan];
  return [...lobes, backFan, belowFan];
}

/** The belly of a female is rounder. */
const bellyOf = ({ sex }: Shape): number => (sex === 'female' ? 83 : 79);

const bodyOf = (shape: Shape, end: number): string =>
  `M22 60C30 47 52 42 72 42.5C92 43 ${end - 9} 51 ${end + 1} 55L${end + 1} 67C${end - 9} 72 92 ${bellyOf(shape)} 70 ${bellyOf(shape)}C50 ${bellyOf(shape)} 30 74 22 60Z`;

const flankOf = (shape: Shape, end: number): string =>
  `M47 46.5C55 43.5 64 42.5 72 42.5C92 43 ${end - 9} 51 ${end + 1} 55L${end + 1} 67C${end - 9} 72 92 ${bellyOf(shape)} 70 ${bellyOf(shape)}C61 ${bellyOf(shape)} 55 77.5 48 75Q55 61 47 46.5Z`;

/** Rows of scales within the flank, as short arcs; deterministic, since a drawing of one look is one drawing. */
function scalesOf(shape: Shape, end: number): string {
  const arcs: string[] = [];
  const belly = bellyOf(shape);
  for (let row = 0; row < 6; row++) {
    const y = 49 + row * 5;
    for (let x = 56 + (row % 2) * 3.5; x < end - 6; x += 7) {
      const high = 45 + Math.max(0, x - 76) * 0.26;
      const low = belly - 3 - Math.max(0, x - 72) * 0.3;
      if (y > high + 1 && y < low - 1) arcs.push(`M${x} ${y - 2}q3 2 0 4`);
    }
  }
  return arcs.join('');
}

function ventralsOf({ fins, sex }: Shape): string {
  const long = fins === 'long' && sex !== 'female' ? 42 : 26;
  return `M58 78Q61 ${77 + 0.45 * long} 62 ${77 + long}Q55 ${77 + 0.6 * long} 53 77Z`;
}

function pectoralOf({ pectorals }: Shape): string {
  const large = pectorals === 'large';
  const length = large ? 26 : 13;
  const fan: Fan = {
    ...{ from: [51, 63], to: [51, 67], first: large ? -62 : -22, last: large ? 62 : 38 },
    ...{ firstLength: length, lastLength: length, rays: large ? 9 : 5 },
  };
  return fanOutline(fan, 1.05);
}
