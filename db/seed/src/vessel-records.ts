import { timeOf } from './calendar.js';
import { RandomSource } from './random-source.js';
import type {
  DemoFish,
  DemoSpawn,
  DemoVessel,
  DemoVesselStay,
  DemoWaterReading,
} from './scenario.js';

const RACK = 'Rack 1';
const SHELVES = 4;
const ON_SHELF = 8;
/** The group of females: so many, in a tank of its own. */
const GROUP = 4;

interface VesselsOf {
  readonly personId: string;
  readonly fish: readonly DemoFish[];
  readonly spawns: readonly DemoSpawn[];
  readonly readings: readonly DemoWaterReading[];
  readonly today: number;
  readonly zone: string;
  readonly seed: number;
}

/**
 * A rack of jars with a fish in most of them, a tank with a group of females, and the vessels whose water was read; the youngest spawn
 * is in a tub. Each fish that is kept has moved once, so that there is a past to read.
 */
export function vesselRecords(of: VesselsOf): {
  vessels: DemoVessel[];
  stays: DemoVesselStay[];
} {
  const { personId, today, zone } = of;
  const random = new RandomSource(of.seed ^ 0x4ac7);
  const vessel = (code: string, kind: DemoVessel['kind'], more: Partial<DemoVessel> = {}) => ({
    ...{ id: random.uuid(), personId, code, kind, litres: null, rack: null },
    ...{ shelf: null, position: null, note: null, ...more },
  });
  const jars = Array.from({ length: SHELVES * ON_SHELF }, (_, k) => {
    const [shelf, position] = [Math.floor(k / ON_SHELF) + 1, (k % ON_SHELF) + 1];
    const code = `${'ABCD'[shelf - 1]} ${position}`;
    return vessel(code, 'jar', { litres: 2, rack: RACK, shelf, position });
  });
  const group = vessel('Females', 'tank', { litres: 60 });
  const read = waters(of.readings).map((code) =>
    vessel(code, code.includes('tub') ? 'tub' : 'other'),
  );
  const stay = (
    vesselId: string,
    who: Pick<DemoVesselStay, 'fishId' | 'spawnId' | 'company'>,
    [came, left]: readonly [number, number | null],
  ): DemoVesselStay => ({
    ...{ id: random.uuid(), vesselId, ...who, byName: 'demo scenario' },
    cameAt: timeOf(today - came, 9, zone),
    leftAt: left === null ? null : timeOf(today - left, 9, zone),
  });
  const { together, alone } = residents(of);
  const stays = [
    ...together.flatMap((fish, k) => [
      stay(jars.at(-1 - k)!.id, fishIn(fish.id, null), [60, 30]),
      stay(group.id, fishIn(fish.id, 'sorority'), [30, null]),
    ]),
    // Every fifth jar is free.
    ...jars
      .filter((_, k) => k % 5 !== 4)
      .flatMap((jar, k) => {
        const fish = alone[k];
        return fish === undefined ? [] : [stay(jar.id, fishIn(fish.id, null), [20, null])];
      }),
  ];
  const fry = youngestSpawn(of);
  const tub = vessel('Fry tub 1', 'tub', { litres: 20 });
  if (fry !== undefined)
    stays.push(stay(tub.id, { fishId: null, spawnId: fry.id, company: null }, [6, null]));
  return { vessels: [...jars, group, tub, ...read], stays };
}

const fishIn = (fishId: string, company: DemoVesselStay['company']) => ({
  ...{ fishId, spawnId: null, company },
});

/** Names of vessels whose water was read. */
const waters = (readings: readonly DemoWaterReading[]): string[] => [
  ...new Set(readings.flatMap(({ vessel }) => vessel ?? [])),
];

/** Fish that are kept here, the youngest first: some females for the group, the rest for jars. */
const residents = ({ fish, personId }: VesselsOf) => {
  const kept = fish
    .filter((one) => one.personId === personId)
    .filter(({ disposition }) => disposition === 'keeper' || disposition === 'hold')
    .sort((a, b) => ((a.hatchDate ?? '') < (b.hatchDate ?? '') ? 1 : -1));
  const females = kept.filter(({ sex }) => sex === 'female');
  const together = females.length > 2 * GROUP ? females.slice(0, GROUP) : [];
  return { together, alone: kept.filter((one) => !together.includes(one)) };
};

const youngestSpawn = ({ spawns, personId }: VesselsOf): DemoSpawn | undefined =>
  spawns
    .filter((one) => one.personId === personId && !one.failed && one.hatchDate !== null)
    .sort((a, b) => ((a.hatchDate ?? '') < (b.hatchDate ?? '') ? 1 : -1))[0];
