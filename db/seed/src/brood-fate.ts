import type { BroodDays } from './brood-numbers.js';
import type { RandomSource } from './random-source.js';
import type { DemoDisposition } from './scenario.js';
import type { SpawnCard } from './spawn-records.js';
import { TRAITS } from './trait-model.js';
import { type Makings, looks } from './young-fish.js';

/** A fry that gets a record, and what becomes of it. */
export interface Chosen {
  readonly makings: Makings;
  readonly merit: number;
  readonly keptDay: number | null;
  readonly disposition: DemoDisposition;
  readonly dispositionDay: number | null;
  readonly reason: string | null;
}

const KEPT_MALES = 3;
const KEPT_FEMALES = 4;

/**
 * Which of the jarred fish get a record: the best of each sex, which stay, and some others that were looked at and then
 * culled, placed or lost. The rest of the brood is dealt with as counts.
 */
export function chooseFish(
  brood: readonly Makings[],
  merit: (fry: Makings) => number,
  days: BroodDays,
  random: RandomSource,
): Chosen[] {
  const ranked = brood
    .map((makings) => ({ makings, merit: merit(makings) + looks(makings.values, makings.sex) }))
    .sort((a, b) => b.merit - a.merit);
  const best = (sex: 'male' | 'female', number: number) =>
    ranked.filter((fry) => fry.makings.sex === sex).slice(0, number);
  const kept = [...best('male', KEPT_MALES), ...best('female', KEPT_FEMALES)];
  const others = ranked.filter((fry) => !kept.includes(fry));
  const looked = Array.from({ length: random.whole(2, 5) }, () => random.pick(others));
  return [
    ...kept.map((fry) => ({ ...fry, keptDay: days.sort, ...keeperFate(days, random) })),
    ...[...new Set(looked)].map((fry) => ({
      ...fry,
      keptDay: null,
      ...otherFate(fry.makings, days, random),
    })),
  ];
}

type Fate = Pick<Chosen, 'disposition' | 'dispositionDay' | 'reason'>;

function keeperFate(days: BroodDays, random: RandomSource): Fate {
  const dispositionDay = days.hatch + random.whole(400, 520);
  return random.chance(0.7)
    ? {
        disposition: 'placed',
        dispositionDay,
        reason: 'retired from breeding, to a home of its own',
      }
    : { disposition: 'died', dispositionDay, reason: 'found dead, no outward sign' };
}

function otherFate(makings: Makings, days: BroodDays, random: RandomSource): Fate {
  const of = (key: string) => makings.values[TRAITS.findIndex((trait) => trait.key === key)] ?? 0;
  const culled = (dispositionDay: number, reason: string): Fate => ({
    disposition: 'culled',
    dispositionDay,
    reason,
  });
  if (of('straight_spine') === 0) return culled(days.secondCull, 'bent spine, seen from above');
  if (of('ventral_condition') <= 2) return culled(days.secondCull, 'short, crossed ventral fins');
  const age = days.sort + random.whole(0, 4);
  if (of('fin_balance') <= 1) return culled(age, 'dorsal far too small for the tail');
  if (of('colour_evenness') <= 1) return culled(age, 'patchy colour with a wash');
  if (of('caudal_spread') < (makings.sex === 'male' ? 150 : 132) && random.chance(0.6)) {
    return culled(age, `spread stays at ${of('caudal_spread')}°`);
  }
  if (random.chance(0.12)) {
    return {
      disposition: 'died',
      dispositionDay: days.sort - random.whole(5, 30),
      reason: 'swollen, died within two days',
    };
  }
  return {
    disposition: 'placed',
    dispositionDay: days.place + random.whole(0, 20),
    reason: 'sound, not needed in the line',
  };
}

/** Accounts for the jarred fish that have no record: culled at two ages with reasons, lost, and placed. */
export function disposeOfRest(
  card: SpawnCard,
  days: BroodDays,
  rest: number,
  random: RandomSource,
): void {
  const died = Math.round(rest * random.between(0.02, 0.06));
  const second = Math.round(rest * random.between(0.12, 0.2));
  const final = Math.round(rest * random.between(0.3, 0.45));
  const dorsal = Math.round(second * random.between(0.3, 0.7));
  const spread = Math.round(final * random.between(0.4, 0.6));
  card.loss('died', days.secondCull + 15, died, 'lost in jars');
  card.loss('culled', days.secondCull, dorsal, 'narrow dorsal, rays split late', true);
  card.loss('culled', days.secondCull, second - dorsal, 'did not grow on');
  card.loss('culled', days.sort, spread, 'spread far below the brood', true);
  card.loss('culled', days.sort, final - spread, 'uneven colour');
  card.loss('placed', days.place, rest - died - second - final, 'to homes without breeding');
}
