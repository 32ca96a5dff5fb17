import { dateOf, dayOf } from './calendar.js';
import type { RandomSource } from './random-source.js';
import type { DemoPicture, DemoSheetScoring } from './scenario.js';
import { type SimulatedFish, doses } from './simulated-fish.js';

const BLUES = ['#1f8f86', '#2a4fb0', '#6f8296'] as const;
const PICTURED = 4;

/** Body and fins by what is seen of the fish; drawn, so that nobody takes it for a photo. */
function colours(fish: SimulatedFish): { body: string; fins: string } {
  if (doses(fish, 'm') === 2) return { body: '#1d1f24', fins: '#2a2d35' };
  const blue = BLUES[doses(fish, 'bl')];
  if (doses(fish, 'c') === 2) return { body: '#e8cdbb', fins: '#b3262e' };
  return { body: blue, fins: blue };
}

/** A tail of the given spread in degrees, around the end of the body. */
function tail(spread: number, colour: string): string {
  const half = (Math.min(spread, 200) / 2) * (Math.PI / 180);
  const rays = Array.from({ length: 9 }, (_, k) => {
    const angle = -half + (k / 8) * 2 * half;
    return [520 + 210 * Math.cos(angle), 300 + 210 * Math.sin(angle)].map((at) => at.toFixed(1));
  });
  const lines = rays.map(([x, y]) => `M520 300L${x} ${y}`).join('');
  return `<path d="M520 300L${rays.map((ray) => ray.join(' ')).join('L')}Z" fill="${colour}" fill-opacity=".75"/><path d="${lines}" stroke="#0006" stroke-width="3" fill="none"/>`;
}

function drawing(fish: SimulatedFish, spread: number): string {
  const { body, fins } = colours(fish);
  const female = fish.sex === 'female';
  return [
    '<svg xmlns="http://www.w3.org/2000/svg" width="960" height="600" viewBox="0 0 960 600">',
    '<rect width="960" height="600" fill="#dfe9e4"/><rect y="540" width="960" height="60" fill="#b9a98a"/>',
    tail(female ? spread * 0.8 : spread, fins),
    `<path d="M330 225q60-${female ? 70 : 150} 170-${female ? 50 : 110}l20 125z" fill="${fins}" fill-opacity=".75"/>`,
    `<path d="M300 365q110 ${female ? 70 : 190} 215 ${female ? 60 : 165}l10-170z" fill="${fins}" fill-opacity=".75"/>`,
    `<path d="M250 360l-30 ${female ? 70 : 120}l55-110z" fill="${fins}"/>`,
    `<path d="M120 300q90-110 250-95q120 12 160 70q0 45-10 60q-60 60-170 62q-150 5-230-97z" fill="${body}"/>`,
    '<circle cx="185" cy="285" r="17" fill="#f4f4ef"/><circle cx="183" cy="285" r="9" fill="#111"/>',
    '</svg>',
  ].join('');
}

/** Drawings of a few fish as they looked when the visitor scored them. */
export function drawnPictures(
  fish: readonly SimulatedFish[],
  scorings: readonly DemoSheetScoring[],
  spreadIndex: number,
  ids: RandomSource,
): DemoPicture[] {
  const byId = new Map(fish.map((one) => [one.id, one]));
  const seen = new Set<string>();
  return scorings
    .filter(({ fishId }) => !seen.has(fishId) && seen.add(fishId))
    .slice(0, PICTURED)
    .flatMap((scoring) => {
      const one = byId.get(scoring.fishId);
      if (one === undefined) return [];
      return [
        {
          id: ids.uuid(),
          subjectKind: 'sheet_scoring' as const,
          subjectId: scoring.id,
          takenOn: dateOf(dayOf(scoring.scoredOn)),
          caption: `Drawing of ${one.tag}, flaring (the demo has no photos)`,
          svg: drawing(one, one.values[spreadIndex] ?? 150),
        },
      ];
    });
}
