import { dateOf } from './calendar.js';
import type { History } from './history.js';
import { LINES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoFish, DemoGenotype, DemoPhenotype } from './scenario.js';
import { doses, type SimulatedFish } from './simulated-fish.js';

/** The black line. */
const LINE = 1;
/** Days before today on which the brood was spawned, and after hatching those on which its young were looked at. */
const SPAWNED_AGO = 150;
const LOOKED_AT = 80;

interface Setting {
  readonly today: number;
  readonly ids: RandomSource;
  readonly personId: string;
  readonly lineId: string;
}

interface LeftBehind {
  readonly fish: readonly DemoFish[];
  readonly phenotypes: readonly DemoPhenotype[];
  readonly genotypes: readonly DemoGenotype[];
}

/**
 * What an albino bought for the black line left behind: he died, his brood stayed small, two of the three young were placed, and the last
 * one, plain like its dam, alone carries albino. Gives the records of its fish; the spawn is added to the history. None where no female of
 * the line is free for it.
 */
export function lastCarrier(history: History, setting: Setting): LeftBehind {
  const { today, ids, personId, lineId } = setting;
  const line = LINES[LINE];
  const spawned = today - SPAWNED_AGO;
  const dam = history.fish.find((one) => isFree(one, spawned));
  if (line === undefined || dam === undefined) return { fish: [], phenotypes: [], genotypes: [] };
  const sire = boughtSire(history.tag(line, 0, spawned - 40, '00'), spawned, setting);
  const spawnId = ids.uuid();
  const tag = history.tag(line, 0, spawned);
  history.spawns.push({
    ...{ id: spawnId, personId, tag, lineId, sireId: sire.id, damId: dam.id },
    ...{ pairingId: null, spawnedOn: dateOf(spawned), hatchDate: dateOf(spawned + 2) },
    ...{ purpose: 'albino from outside', note: 'three young swam up', failed: false },
    failedReason: null,
  });
  const young = [1, 2, 3].map((number) =>
    youngOf({ id: spawnId, tag, hatched: spawned + 2 }, number, setting),
  );
  return {
    fish: [sire, ...young],
    phenotypes: [
      {
        ...{ id: ids.uuid(), fishId: sire.id, locusId: 'al', phenotype: 'albino' },
        ...{ seenOn: dateOf(spawned - 30), ageDays: null, note: null },
      },
    ],
    genotypes: [
      {
        ...{ id: ids.uuid(), fishId: sire.id, locusId: 'al', genotype: 'al/al' },
        ...{ basis: 'test_mating', note: 'put to an albino by its breeder: all young albino' },
      },
    ],
  };
}

/** A female of the line that could be put to him on that day. */
const isFree = (one: SimulatedFish, day: number): boolean =>
  one.line === LINE &&
  one.person === 0 &&
  one.sex === 'female' &&
  // Black females bring no young.
  doses(one, 'm') < 2 &&
  // There then, and rested; who was never kept has no day on which it was chosen.
  one.keptDay !== null &&
  (one.disposition === 'keeper' || (one.dispositionDay ?? 0) > day) &&
  one.lastSpawnDay <= day - 21 &&
  day - one.hatchDay >= 120 &&
  day - one.hatchDay <= 366;

const common = ({ personId, lineId }: Setting) => ({
  ...{ personId, lineId, note: null, declaredUnrelated: false },
});

const boughtSire = (tag: string, spawned: number, setting: Setting): DemoFish => ({
  ...common(setting),
  ...{ id: setting.ids.uuid(), tag, name: 'Wisp' },
  ...{ sex: 'male', hatchDate: null, spawnId: null, declaredUnrelated: true },
  origin: 'bought from a breeder of another region: unrelated to the other fish',
  ...{ disposition: 'died', dispositionDate: dateOf(spawned + 70) },
  dispositionReason: 'found dead, no cause seen',
});

/** The first stays, the others go to somebody else. */
const youngOf = (
  spawn: { readonly id: string; readonly tag: string; readonly hatched: number },
  number: number,
  setting: Setting,
): DemoFish => ({
  ...common(setting),
  ...{ id: setting.ids.uuid(), tag: `${spawn.tag}-0${number}`, name: null },
  ...{ spawnId: spawn.id, origin: null },
  ...{ sex: number === 2 ? 'female' : 'male', hatchDate: dateOf(spawn.hatched) },
  ...{ disposition: number === 1 ? 'hold' : 'placed' },
  dispositionDate: dateOf(spawn.hatched + LOOKED_AT),
  dispositionReason:
    number === 1
      ? 'candidate: to be looked at again at 17 weeks'
      : 'makes room for the next generation',
});
