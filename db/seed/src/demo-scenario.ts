import { dateOf, dayOf } from './calendar.js';
import { choosePair } from './choose-pair.js';
import { drawnPictures } from './drawn-pictures.js';
import { History } from './history.js';
import { setUpLiveSpawns } from './live-spawns.js';
import { knownGenotypes } from './known-genotypes.js';
import { lastCarrier } from './last-carrier.js';
import { linePurposes } from './line-purposes.js';
import { isUnrelated, PEOPLE_NAMES, LINES } from './line-plans.js';
import { RandomSource } from './random-source.js';
import type { DemoFish, DemoPerson, DemoLine, DemoScenario } from './scenario.js';
import { scoreRecords, traitDefinitions } from './score-records.js';
import { seenPhenotypes } from './seen-phenotypes.js';
import { sheetRecords } from './sheet-records.js';
import type { SimulatedFish } from './simulated-fish.js';
import { settleToday } from './stock-today.js';
import { vesselRecords } from './vessel-records.js';
import { waterReadings } from './water-records.js';

export interface DemoOptions {
  /** Whole number; the same seed and day give the same records, ids included. */
  readonly seed: number;
  /** The day the demo is looked at, `YYYY-MM-DD`: everything in it lies on or before this day. */
  readonly today: string;
  /** Time zone in which it is looked at, an IANA name; UTC when absent. Hours of the day are those there. */
  readonly zone?: string;
}

/**
 * An invented stock to try the software on: two people, three lines over ten generations (a blue line that met double
 * tail through a bought dam and is partly kept by a partner, a melano line, a cambodian line), with spawns, counts,
 * losses, culls, scores, the genotypes that people can know, a pairing that waits, fry of
 * two weeks, and three spawns under way.
 *
 * Fry inherit alleles and breeding values from their parents by chance, so broods fit their expectations as real ones
 * would. None of it is data: see docs/methods/demo-scenario.md.
 *
 * @throws RangeError when `today` is not a date.
 * @example demoScenario({ seed: 7, today: '2026-03-14' }).fish.length // several hundred
 */
export function demoScenario({ seed, today, zone = 'UTC' }: DemoOptions): DemoScenario {
  const random = new RandomSource(seed);
  const ids = new RandomSource(seed ^ 0x5eed);
  const day = dayOf(today);
  const people = PEOPLE_NAMES.map((name, index): DemoPerson => ({
    id: ids.uuid(),
    name,
    here: index === 0,
  }));
  const personIds = people.map((person) => person.id);
  const personId = personIds[0] ?? '';
  const lines = LINES.map(({ code, name, goal }): DemoLine => ({
    id: ids.uuid(),
    personId,
    code,
    name,
    goal,
  }));
  const lineIds = lines.map((line) => line.id);
  const definitions = traitDefinitions(personId, ids);
  const history = new History({ today: day, zone, random, ids, personIds, lineIds });
  history.play();
  settleToday(history.fish, day, random);
  planNext(history, day, random);
  const setting = { seed, today: day, zone, personIds, lineIds };
  const careRecords = liveCare(history, setting);
  const last = leftBehind(history, setting);
  const scores = scoreRecords(history.fish, definitions, day, ids, random);
  const genotypes = knownGenotypes(history.fish, history, ids);
  const sheets = sheetsOf(history, definitions, scores, setting);
  const seen = seenPhenotypes(history.fish, day, ids);
  const fish = [
    ...inOrder(history.fish).map((one) => fishRecord(one, personIds, lineIds)),
    ...last.fish,
  ];
  const readings = waterReadings(history.spawns, personId, day, zone, seed);
  const kept = vesselRecords({
    ...{ personId, fish, spawns: history.spawns, readings, today: day, zone, seed },
  });
  return {
    people,
    lines,
    linePurposes: linePurposes({ lines, definitions, today: day, zone, by: PEOPLE_NAMES[0] }),
    traitDefinitions: definitions,
    ...broodsOf(history, today),
    fish,
    careRecords,
    phenotypes: [...seen.phenotypes, ...last.phenotypes],
    locusSettings: seen.locusSettings,
    waterReadings: readings,
    vessels: kept.vessels,
    vesselStays: kept.stays,
    scoreSheets: sheets.scoreSheets,
    sheetScorings: sheets.sheetScorings,
    pictures: picturesOf(history, definitions, sheets, setting),
    scores: [...scores, ...sheets.scores],
    genotypes: [...genotypes, ...last.genotypes],
  };
}

interface Setting {
  readonly seed: number;
  readonly today: number;
  readonly zone: string;
  readonly personIds: readonly string[];
  readonly lineIds: readonly string[];
}

/** A stream of chance for one part of the scenario, so that the rest stays as it is whatever that part draws. */
const streamOf = ({ seed }: Setting, part: number): RandomSource => new RandomSource(seed ^ part);

const liveCare = (history: History, setting: Setting): DemoScenario['careRecords'] =>
  setUpLiveSpawns(history, {
    ...setting,
    random: streamOf(setting, 0x11fe),
    ids: streamOf(setting, 0xca1e),
  });

const leftBehind = (history: History, setting: Setting): ReturnType<typeof lastCarrier> =>
  lastCarrier(history, {
    today: setting.today,
    ids: streamOf(setting, 0x1a57),
    personId: setting.personIds[0] ?? '',
    lineId: setting.lineIds[1] ?? '',
  });

type Definitions = ReturnType<typeof traitDefinitions>;

const sheetsOf = (
  { fish }: History,
  definitions: Definitions,
  scores: DemoScenario['scores'],
  setting: Setting,
): ReturnType<typeof sheetRecords> =>
  sheetRecords({
    ...{ fish, definitions, scores },
    personId: setting.personIds[0] ?? '',
    today: setting.today,
    ids: streamOf(setting, 0x5ee7),
    random: streamOf(setting, 0x5c03),
  });

const picturesOf = (
  { fish }: History,
  definitions: Definitions,
  { sheetScorings }: ReturnType<typeof sheetRecords>,
  setting: Setting,
): DemoScenario['pictures'] =>
  drawnPictures(
    fish,
    sheetScorings,
    {
      spreadIndex: definitions.findIndex(({ key }) => key === 'caudal_spread'),
      today: setting.today,
    },
    streamOf(setting, 0x91c7),
  );

/** Pairings, spawns, and what was noted of each brood. */
const broodsOf = (history: History, today: string) => ({
  pairings: history.pairings,
  spawns: [...history.spawns].sort((a, b) =>
    (a.spawnedOn ?? today) < (b.spawnedOn ?? today) ? -1 : 1,
  ),
  spawnEvents: history.cards.flatMap((card) => card.events),
  spawnCounts: history.cards.flatMap((card) => card.counts),
  spawnLosses: history.cards.flatMap((card) => card.losses),
  classCounts: history.cards.flatMap((card) => card.classCounts),
});

/** One pairing that waits in the blue line, and one in the black line that was thought better of. */
function planNext(history: History, day: number, random: RandomSource): void {
  const [blue, black] = LINES;
  if (!blue || !black) return;
  const pair = (line: number, plan: typeof blue, kind: 'least-related' | 'full-sib') =>
    choosePair(
      history.readyFish(line, 'male', day),
      history.readyFish(line, 'female', day),
      { kind, purpose: '' },
      plan,
      plan.generations.length,
      history.coancestry,
      random,
    );
  const next = pair(0, blue, 'least-related');
  history.pairing(next, 0, day - 3, 'least related of the pairs that hold the spread', 'planned');
  const dropped = pair(1, black, 'full-sib');
  history.pairing(
    dropped,
    0,
    day - 40,
    'full sibs with the densest black',
    'dropped',
    'too close again; wait for an outcross',
  );
}

function inOrder(fish: readonly SimulatedFish[]): SimulatedFish[] {
  return [...fish].sort((a, b) => a.hatchDay - b.hatchDay || (a.tag < b.tag ? -1 : 1));
}

function fishRecord(
  fish: SimulatedFish,
  personIds: readonly string[],
  lineIds: readonly string[],
): DemoFish {
  return {
    id: fish.id,
    personId: personIds[fish.person] ?? '',
    tag: fish.tag,
    name: fish.name,
    sex: fish.recordedSex,
    // Nobody knows to the day when a bought fish hatched.
    hatchDate: fish.spawnId === null ? null : dateOf(fish.hatchDay),
    lineId: lineIds[fish.line] ?? '',
    spawnId: fish.spawnId,
    origin: fish.origin,
    declaredUnrelated: isUnrelated(fish.origin),
    note: fish.note,
    disposition: fish.disposition,
    dispositionDate: fish.dispositionDay === null ? null : dateOf(fish.dispositionDay),
    dispositionReason: fish.reason,
  };
}
