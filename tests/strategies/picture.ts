import type { Kind } from './calibrate.js';
import { binsOf } from './page.js';

const SIZE = 420;
const [LEFT, TOP, SIDE] = [52, 16, 340];
const MARKS = [
  { colour: '#0b6e6e', mark: (x: number, y: number) => `<circle cx="${x}" cy="${y}" r="4.5"/>` },
  {
    colour: '#a33b1f',
    mark: (x: number, y: number) => `<rect x="${x - 4}" y="${y - 4}" width="8" height="8"/>`,
  },
  {
    colour: '#3f4f9f',
    mark: (x: number, y: number) => `<path d="M${x} ${y - 5}l5 9h-10z"/>`,
  },
] as const;

const across = (share: number): number => Math.round((LEFT + SIDE * share) * 10) / 10;
const up = (share: number): number => Math.round((TOP + SIDE * (1 - share)) * 10) / 10;

/** Chances said against how often they came true: kinds are told apart by mark as well as by colour. */
export function reliabilityPicture(kinds: readonly Kind[]): string {
  const ticks = [0, 0.25, 0.5, 0.75, 1].map(
    (share) =>
      `<path d="M${LEFT} ${up(share)}h${SIDE}" stroke="#ccd"/><text x="${LEFT - 8}" y="${up(share) + 4}" text-anchor="end">${100 * share} %</text><text x="${across(share)}" y="${TOP + SIDE + 18}" text-anchor="middle">${100 * share} %</text>`,
  );
  const series = kinds.map(({ said }, k) => {
    const { colour, mark } = MARKS[k % MARKS.length]!;
    const points = binsOf(said).map(
      ({ said: x, came, low, high }) =>
        `<path d="M${across(x)} ${up(low)}V${up(high)}"/>${mark(across(x), up(came))}`,
    );
    return `<g fill="${colour}" stroke="${colour}">${points.join('')}</g>`;
  });
  const key = kinds.map(({ name }, k) => {
    const { colour, mark } = MARKS[k % MARKS.length]!;
    const y = TOP + SIDE + 56 + 20 * k;
    return `<g fill="${colour}" stroke="${colour}">${mark(LEFT + 6, y - 4)}</g><text x="${LEFT + 20}" y="${y}">${name}</text>`;
  });
  const height = TOP + SIDE + 56 + 20 * kinds.length;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${SIZE}" height="${height}" viewBox="0 0 ${SIZE} ${height}" font-family="sans-serif" font-size="12" role="img" aria-label="Chances said against how often they came true"><rect width="${SIZE}" height="${height}" fill="#fff"/>${ticks.join('')}<path d="M${across(0)} ${up(0)}L${across(1)} ${up(1)}" stroke="#888" stroke-dasharray="5 4"/>${series.join('')}<text x="${LEFT + SIDE / 2}" y="${TOP + SIDE + 36}" text-anchor="middle">chance said; upwards how often it came true</text>${key.join('')}</svg>
`;
}
