import { dateOf, timeOf } from './calendar.js';
import { choosePair, type Pair } from './choose-pair.js';
import type { History } from './history.js';
import { LINES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoCareRecord, DemoSpawnEventKind } from './scenario.js';
import { SpawnCard } from './spawn-records.js';

interface Setting {
  readonly today: number;
  readonly zone: string;
  readonly random: RandomSource;
  readonly ids: RandomSource;
  readonly personIds: readonly string[];
  readonly lineIds: readonly string[];
}

/** What happened so many days before today, at an hour of that day; nothing on the day itself, whose hour is not known. */
type Happened = readonly [DemoSpawnEventKind, daysAgo: number, hour: number, note?: string];

interface LivePlan {
  readonly line: number;
  readonly purpose: string;
  readonly spawnedDaysAgo: number | null;
  readonly hatchedDaysAgo: number | null;
  readonly events: readonly Happened[];
  readonly care: readonly (readonly [step: string, daysAgo: number, hour: number])[];
}

const plans: readonly LivePlan[] = [
  {
    line: 0,
    purpose: 'keep the spread, widen the dorsal',
    spawnedDaysAgo: 1,
    hatchedDaysAgo: null,
    events: [
      ['conditioning', 13, 8],
      ['side_by_side', 4, 9],
      ['introduced', 3, 10, 'in a chimney glass'],
      ['nest', 2, 7.5, 'as large as a saucer'],
      ['released', 2, 8],
      ['spawned', 1, 6.5],
      ['dam_out', 1, 10],
    ],
    care: [
      ['water_set', 12, 8.5],
      ['sire_settled', 3, 9.5],
    ],
  },
  {
    line: 1,
    purpose: 'black sire on a carrier once more',
    spawnedDaysAgo: 5,
    hatchedDaysAgo: 3,
    events: [
      ['conditioning', 17, 8],
      ['introduced', 7, 9],
      ['nest', 6, 7],
      ['spawned', 5, 9],
      ['dam_out', 5, 13],
      ['eyed', 4, 10],
      ['hatched', 3, 15, 'a day sooner than the last brood'],
      ['free_swimming', 1, 9],
    ],
    care: [['brine_shrimp_set', 1, 17]],
  },
  {
    line: 2,
    purpose: 'clean bodies from two unrelated branches',
    spawnedDaysAgo: null,
    hatchedDaysAgo: null,
    events: [['conditioning', 9, 8, 'frozen mosquito larvae, twice a day']],
    care: [['water_set', 9, 8.5]],
  },
];

/** Three spawns that are under way today, one at each stage, and the daily care of the fry of two weeks. */
export function setUpLiveSpawns(history: History, setting: Setting): readonly DemoCareRecord[] {
  const records = tendTheYoungest(history, setting);
  for (const plan of plans) records.push(...setUp(plan, history, setting));
  return records;
}

function setUp(plan: LivePlan, history: History, setting: Setting): DemoCareRecord[] {
  const { today, zone, ids, personIds, lineIds } = setting;
  const day = today - (plan.spawnedDaysAgo ?? -7);
  const pair = pairOf(plan, history, setting, Math.min(day, today));
  const card = new SpawnCard(ids.uuid(), today, zone, ids);
  const line = LINES[plan.line];
  if (pair === null || line === undefined) return [];
  if (plan.spawnedDaysAgo !== null) {
    pair.sire.lastSpawnDay = day;
    pair.dam.lastSpawnDay = day;
  }
  const first = Math.max(...plan.events.map(([, daysAgo]) => daysAgo));
  history.cards.push(card);
  history.spawns.push({
    id: card.spawnId,
    personId: personIds[0] ?? '',
    tag: history.tag(line, 0, Math.min(day, today)),
    lineId: lineIds[plan.line] ?? '',
    sireId: pair.sire.id,
    damId: pair.dam.id,
    pairingId: history.pairing(pair, 0, today - first - 1, plan.purpose),
    spawnedOn: plan.spawnedDaysAgo === null ? null : dateOf(day),
    hatchDate: plan.hatchedDaysAgo === null ? null : dateOf(today - plan.hatchedDaysAgo),
    purpose: plan.purpose,
    note: null,
    failed: false,
    failedReason: null,
  });
  for (const [kind, daysAgo, hour, note] of plan.events) {
    card.event(kind, today - daysAgo, hour, note ?? null);
  }
  return plan.care.map(([step, daysAgo, hour]) =>
    record(card.spawnId, step, timeOf(today - daysAgo, hour, zone), ids),
  );
}

function pairOf(plan: LivePlan, history: History, setting: Setting, day: number): Pair | null {
  const line = LINES[plan.line];
  if (line === undefined) return null;
  const waiting = history.pairings.filter((pairing) => pairing.state === 'planned');
  const taken = new Set(waiting.flatMap(({ sireId, damId }) => [sireId, damId]));
  const free = (sex: 'male' | 'female') =>
    history.readyFish(plan.line, sex, day).filter((fish) => !taken.has(fish.id));
  return choosePair(
    free('male'),
    free('female'),
    { kind: 'least-related', purpose: plan.purpose },
    line,
    line.generations.length,
    history.coancestry,
    setting.random,
  );
}

/** Fry of two weeks are fed and cleaned daily: the last week of it is written down. */
function tendTheYoungest(
  history: History,
  { today, zone, ids, personIds }: Setting,
): DemoCareRecord[] {
  const young = history.spawns.find(
    ({ hatchDate, personId }) => hatchDate === dateOf(today - 14) && personId === personIds[0],
  );
  if (young === undefined) return [];
  const records: DemoCareRecord[] = [];
  const write = (step: string, daysAgo: number, hour: number): void => {
    records.push(record(young.id, step, timeOf(today - daysAgo, hour, zone), ids));
  };
  for (let daysAgo = 7; daysAgo >= 1; daysAgo -= 1) {
    write('brine_shrimp_set', daysAgo, 17);
    write('fed', daysAgo, 17.5);
    write('leftovers_cleared', daysAgo, 18.5);
    if (daysAgo > 1) write('siphoned', daysAgo, 18.5);
  }
  write('topped_up', 4, 19);
  write('water_set_again', 6, 19);
  return records;
}

function record(spawnId: string, step: string, at: string, ids: RandomSource): DemoCareRecord {
  return { id: ids.uuid(), spawnId, step, at, action: 'done', note: null };
}
