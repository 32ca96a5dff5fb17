import { fishLook, fishSvg, type Shows } from '@linewright/pictures';
import { dateOf, dayOf } from './calendar.js';
import { LINES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoPicture, DemoSheetScoring } from './scenario.js';
import { SEEN } from './seen-phenotypes.js';
import { LOCI, type SimulatedFish, doses } from './simulated-fish.js';

/** Fish drawn as they looked when the visitor scored them, and fish of each line drawn grown. */
const SCORED = 4;
const GROWN_OF_LINE = 6;
/** Fish drawn several times as they grow, and at how many weeks: fins of young fish are short. */
const FOLLOWED = 2;
const WEEKS = [8, 12, 16] as const;
const GROWN_WEEKS = 20;
const WIDTH = 480;
const GROUND = '#dfe9e4';

interface PictureOf {
  readonly fish: SimulatedFish;
  readonly on: number;
  readonly young?: boolean;
}

const looksOf = (fish: SimulatedFish): Shows =>
  Object.fromEntries(LOCI.map((locus) => [locus, SEEN[locus][doses(fish, locus)]]));

function drawing({ fish, young = false }: PictureOf, spreadIndex: number): string {
  const shows = { ...looksOf(fish), ...(young && { lf: 'short' }) };
  const { sex } = fish;
  const spread = (fish.values[spreadIndex] ?? 150) * (young ? 0.7 : 1);
  return fishSvg(fishLook(shows, { sex, spread }), { width: WIDTH, ground: GROUND });
}

/** A day in the life of a bought fish is not told in weeks: nobody knows when it hatched. */
const ageWords = ({ fish, on }: PictureOf): string =>
  fish.spawnId === null ? '' : `, ${Math.floor((on - fish.hatchDay) / 7)} weeks old`;

/** Those still kept, the youngest first, so that the fish one meets most have a picture. */
const kept = (fish: readonly SimulatedFish[]): SimulatedFish[] =>
  fish
    .filter(({ disposition, person }) => disposition === 'keeper' && person === 0)
    .sort((a, b) => b.hatchDay - a.hatchDay);

function firstOfLines(stock: readonly SimulatedFish[]): SimulatedFish[] {
  return LINES.flatMap((_, index) =>
    stock.filter(({ line }) => line === index).slice(0, GROWN_OF_LINE),
  );
}

function followed(fish: readonly SimulatedFish[], today: number): PictureOf[] {
  return fish
    .filter((one) => one.spawnId !== null && one.hatchDay + 7 * WEEKS[2] <= today)
    .slice(0, FOLLOWED)
    .flatMap((one) =>
      WEEKS.map((weeks, k) => ({ fish: one, on: one.hatchDay + 7 * weeks, young: k === 0 })),
    );
}

/**
 * Drawings kept in place of photos: of a few fish as they were scored, of some as they grew, and of some of each line that are kept; drawn from what
 * each truly is, and called drawings.
 */
export function drawnPictures(
  fish: readonly SimulatedFish[],
  scorings: readonly DemoSheetScoring[],
  { spreadIndex, today }: { readonly spreadIndex: number; readonly today: number },
  ids: RandomSource,
): DemoPicture[] {
  const byId = new Map(fish.map((one) => [one.id, one]));
  const seen = new Set<string>();
  const scored = scorings
    .filter(({ fishId }) => byId.has(fishId) && !seen.has(fishId) && seen.add(fishId))
    .slice(0, SCORED)
    .map((scoring): DemoPicture => {
      const one: PictureOf = { fish: byId.get(scoring.fishId)!, on: dayOf(scoring.scoredOn) };
      return pictureOf(one, { kind: 'sheet_scoring', id: scoring.id, said: ', flaring' });
    });
  const stock = kept(fish);
  const grown = firstOfLines(stock).map((one) => ({
    fish: one,
    on: Math.min(today, one.hatchDay + 7 * GROWN_WEEKS),
    young: one.hatchDay + 7 * WEEKS[1] > today,
  }));
  return [
    ...scored,
    ...[...followed(stock, today), ...grown].map((one) =>
      pictureOf(one, { kind: 'fish', id: one.fish.id, said: '' }),
    ),
  ];

  function pictureOf(
    one: PictureOf,
    of: { readonly kind: DemoPicture['subjectKind']; readonly id: string; readonly said: string },
  ): DemoPicture {
    return {
      id: ids.uuid(),
      subjectKind: of.kind,
      subjectId: of.id,
      takenOn: dateOf(one.on),
      caption: `Drawing of ${one.fish.tag}${of.said}${ageWords(one)} (the demo has no photos)`,
      svg: drawing(one, spreadIndex),
    };
  }
}
