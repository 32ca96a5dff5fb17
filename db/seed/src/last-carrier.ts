import { dateOf } from './calendar.js';
import type { History } from './history.js';
import { LINES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoFish, DemoGenotype, DemoPhenotype } from './scenario.js';
import { doses } from './simulated-fish.js';

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
export function lastCarrier(
  history: History,
  { today, ids, personId, lineId }: Setting,
): LeftBehind {
  const line = LINES[LINE];
  const spawned = today - SPAWNED_AGO;
  const dam = history.fish.find(
    (one) =>
      one.line === LINE &&
      one.person === 0 &&
      one.sex === 'female' &&
      // Black females bring no young.
      doses(one, 'm') < 2 &&
      // There then, and rested; who was never kept has no day on which it was chosen.
      one.keptDay !== null &&
      (one.disposition === 'keeper' || (one.dispositionDay ?? 0) > spawned) &&
      one.lastSpawnDay <= spawned - 21 &&
      spawned - one.hatchDay >= 120 &&
      spawned - one.hatchDay <= 366,
  );
  if (line === undefined || dam === undefined) return { fish: [], phenotypes: [], genotypes: [] };
  const common = { personId, lineId, note: null, declaredUnrelated: false };
  const sire: DemoFish = {
    ...common,
    ...{ id: ids.uuid(), tag: history.tag(line, 0, spawned - 40, '00'), name: 'Wisp' },
    ...{ sex: 'male', hatchDate: null, spawnId: null, declaredUnrelated: true },
    origin: 'bought from a breeder of another region: unrelated to the other fish',
    ...{ disposition: 'died', dispositionDate: dateOf(spawned + 70) },
    dispositionReason: 'found dead, no cause seen',
  };
  const spawnId = ids.uuid();
  const tag = history.tag(line, 0, spawned);
  history.spawns.push({
    ...{ id: spawnId, personId, tag, lineId, sireId: sire.id, damId: dam.id },
    ...{ pairingId: null, spawnedOn: dateOf(spawned), hatchDate: dateOf(spawned + 2) },
    ...{ purpose: 'albino from outside', note: 'three young swam up', failed: false },
    failedReason: null,
  });
  const young = [1, 2, 3].map((number): DemoFish => {
    const stays = number === 1;
    return {
      ...common,
      ...{ id: ids.uuid(), tag: `${tag}-0${number}`, name: null, spawnId, origin: null },
      ...{ sex: number === 2 ? 'female' : 'male', hatchDate: dateOf(spawned + 2) },
      ...{ disposition: stays ? 'hold' : 'placed' },
      dispositionDate: dateOf(spawned + 2 + LOOKED_AT),
      dispositionReason: stays
        ? 'candidate: to be looked at again at 17 weeks'
        : 'makes room for the next generation',
    };
  });
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
