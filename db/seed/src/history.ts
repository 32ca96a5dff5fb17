import { type BroodDays, broodDays, broodNumbers } from './brood-numbers.js';
import { type Chosen, chooseFish, disposeOfRest } from './brood-fate.js';
import { dateOf } from './calendar.js';
import { type Pair, choosePair, ready } from './choose-pair.js';
import {
  type FounderPlan,
  GENERATION_DAYS,
  LINES,
  type LinePlan,
  type MatingPlan,
} from './line-plans.js';
import type { RandomSource } from './random-source.js';
import { Coancestry } from './relationship.js';
import type { DemoPairing, DemoSpawn } from './scenario.js';
import { type DemoLocus, LOCI, type SimulatedFish, doses } from './simulated-fish.js';
import { SpawnCard, writeNursery, writeSpawning } from './spawn-records.js';
import { type Makings, foundingMakings, youngMakings } from './young-fish.js';

interface Setting {
  readonly today: number;
  readonly zone: string;
  readonly random: RandomSource;
  readonly ids: RandomSource;
  readonly personIds: readonly string[];
  readonly lineIds: readonly string[];
}

/** Plays the matings of every line in order of time and keeps what would have been written down. */
export class History {
  readonly fish: SimulatedFish[] = [];
  readonly spawns: DemoSpawn[] = [];
  readonly cards: SpawnCard[] = [];
  readonly pairings: DemoPairing[] = [];
  readonly coancestry = new Coancestry();
  /** Fish whose broods showed a recessive, and at which loci. */
  readonly proven = new Map<SimulatedFish, Set<DemoLocus>>();
  /** Loci at which a brood was set up as a test, by parent. */
  readonly tested = new Set<SimulatedFish>();
  private readonly spawnNumbers = new Map<string, number>();

  constructor(private readonly setting: Setting) {}

  play(): void {
    const generations = Math.max(...LINES.map((line) => line.generations.length));
    for (let index = 0; index < LINES.length; index += 1) this.buyFounders(index);
    for (let generation = 1; generation <= generations; generation += 1) {
      LINES.forEach((line, index) => {
        this.playGeneration(line, index, generation);
      });
    }
  }

  /** Fish that could be set up with each other today. */
  readyFish(line: number, sex: 'male' | 'female', day: number, person: 0 | 1 = 0): SimulatedFish[] {
    return this.fish.filter(
      (fish) =>
        fish.line === line && fish.sex === sex && fish.person === person && ready(fish, day),
    );
  }

  private firstDay(line: LinePlan, generation: number): number {
    const back = (line.generations.length - generation) * GENERATION_DAYS;
    return this.setting.today - line.youngestAge - back;
  }

  private playGeneration(line: LinePlan, index: number, generation: number): void {
    let hatch = this.firstDay(line, generation);
    for (const mating of line.generations[generation - 1] ?? []) {
      const pair = this.pairFor(line, index, generation, mating, hatch - 2);
      this.spawn(line, index, generation, mating, pair, hatch);
      hatch += this.setting.random.whole(15, 22);
    }
  }

  private pairFor(
    line: LinePlan,
    index: number,
    generation: number,
    mating: MatingPlan,
    day: number,
  ): Pair {
    const pools = {
      male: this.pool(index, 'male', day, mating),
      female: this.pool(index, 'female', day, mating),
    };
    if (mating.outcross) {
      const sex = mating.outcross.sex;
      pools[sex] =
        'fromLine' in mating.outcross
          ? this.readyFish(mating.outcross.fromLine, sex, day)
          : [this.buy(line, index, generation - 1, mating.outcross, day - 150)];
    }
    return choosePair(
      pools.male,
      pools.female,
      mating,
      line,
      generation,
      this.coancestry,
      this.setting.random,
    );
  }

  /** The partner uses fish of its own first; the two parts meet only where a mating asks for it. */
  private pool(
    line: number,
    sex: 'male' | 'female',
    day: number,
    mating: MatingPlan,
  ): SimulatedFish[] {
    const person = mating.person ?? 0;
    const own = this.readyFish(line, sex, day, person);
    const other = this.readyFish(line, sex, day, person === 0 ? 1 : 0);
    if (mating.pair) return [...own, ...other];
    return own.length > 0 ? own : other;
  }

  private buyFounders(index: number): void {
    const line = LINES[index];
    for (const founder of line?.founders ?? []) {
      if (line) this.buy(line, index, 0, founder, this.firstDay(line, 1) - 2 - 170);
    }
  }

  private buy(
    line: LinePlan,
    index: number,
    generation: number,
    plan: FounderPlan,
    hatchDay: number,
  ): SimulatedFish {
    const { ids, random } = this.setting;
    const makings = foundingMakings(plan.sex, plan.doses, random);
    const fish: SimulatedFish = {
      ...makings,
      id: ids.uuid(),
      person: 0,
      line: index,
      tag: this.tag(line, 0, hatchDay + 120, '00'),
      name: plan.name,
      generation,
      sire: null,
      dam: null,
      spawnId: null,
      hatchDay,
      merit: line.merit(makings),
      origin: plan.origin,
      note: plan.note ?? null,
      keptDay: hatchDay + 120,
      recordedSex: plan.sex,
      disposition: 'died',
      dispositionDay: hatchDay + random.whole(520, 700),
      reason: 'of age',
      lastSpawnDay: -Infinity,
    };
    this.fish.push(fish);
    return fish;
  }

  private spawn(
    line: LinePlan,
    index: number,
    generation: number,
    mating: MatingPlan,
    pair: Pair,
    hatch: number,
  ): void {
    const { ids, random, today, zone } = this.setting;
    const days = broodDays(hatch, random);
    const person = mating.person ?? 0;
    const card = new SpawnCard(ids.uuid(), today, zone, ids);
    const tag = this.tag(line, person, days.spawn);
    pair.sire.lastSpawnDay = days.spawn;
    pair.dam.lastSpawnDay = days.spawn;
    this.cards.push(card);
    this.spawns.push({
      id: card.spawnId,
      personId: this.setting.personIds[person] ?? '',
      tag,
      lineId: this.setting.lineIds[index] ?? '',
      sireId: pair.sire.id,
      damId: pair.dam.id,
      pairingId:
        generation > 6 ? this.pairing(pair, person, days.spawn - 14, mating.purpose) : null,
      spawnedOn: dateOf(days.spawn),
      hatchDate: mating.fails === undefined ? dateOf(hatch) : null,
      purpose: mating.purpose,
      note: mating.outcross ? 'outcross' : null,
      failed: mating.fails !== undefined,
      failedReason: mating.fails ?? null,
    });
    if (mating.fails === undefined)
      this.raise(line, index, generation, mating, pair, days, card, tag);
    else this.fail(card, days, mating.fails);
  }

  private fail(card: SpawnCard, days: BroodDays, reason: string): void {
    const { random } = this.setting;
    const eggs = random.whole(90, 160);
    writeSpawning(card, days.spawn, random);
    card.count('eggs', days.spawn, eggs, 'estimated from a photograph of the nest');
    card.count('hatched', days.hatch + 1, 0);
    card.loss('died', days.hatch + 1, eggs, 'eggs that did not hatch');
    card.event('failed', days.hatch + 1, 18, reason);
  }

  private raise(
    line: LinePlan,
    index: number,
    generation: number,
    mating: MatingPlan,
    pair: Pair,
    days: BroodDays,
    card: SpawnCard,
    tag: string,
  ): void {
    const { random, today } = this.setting;
    const inbreeding = this.coancestry.between(pair.sire, pair.dam);
    const numbers = broodNumbers(inbreeding, random);
    writeNursery(card, days, numbers, random);
    if (days.jar > today) return;
    const own = { own: inbreeding, parentsMean: this.meanInbreeding(pair) };
    const maleShare = random.between(0.42, 0.58);
    const brood = Array.from({ length: numbers.jarred }, () =>
      youngMakings(pair.sire, pair.dam, own, maleShare, random),
    );
    this.countClasses(line, pair, mating, brood, card, days);
    const merit = (fry: Makings) =>
      line.merit(fry) + (mating.wanted?.(fry) ?? 0) + random.normal(0, 0.5);
    const chosen = chooseFish(brood, merit, days, random);
    disposeOfRest(card, days, numbers.jarred - chosen.length, random);
    const shuffled = chosen.map((fry) => ({ fry, at: random.next() })).sort((a, b) => a.at - b.at);
    const young = shuffled.map(({ fry }, place) =>
      this.record(fry, {
        line: index,
        generation,
        pair,
        days,
        card,
        tag,
        place,
        person: mating.person ?? 0,
      }),
    );
    this.fish.push(...young);
    const gone = young.filter(
      (fish) => fish.keptDay === null && (fish.dispositionDay ?? 0) <= days.sort,
    ).length;
    const left = card.losses.filter(
      (loss) => loss.onDate > dateOf(days.jar) && loss.onDate <= dateOf(days.sort),
    );
    const lost = left.reduce((sum, loss) => sum + loss.number, 0);
    card.event('sorted', days.sort, 15);
    card.count('sorted', days.sort, numbers.jarred - lost - gone);
  }

  private record(
    fry: Chosen,
    at: {
      readonly line: number;
      readonly generation: number;
      readonly pair: Pair;
      readonly days: BroodDays;
      readonly card: SpawnCard;
      readonly tag: string;
      readonly place: number;
      readonly person: 0 | 1;
    },
  ): SimulatedFish {
    const { makings, ...fate } = fry;
    return {
      ...makings,
      ...fate,
      id: this.setting.ids.uuid(),
      person: at.person,
      line: at.line,
      tag: `${at.tag}-${String(at.place + 1).padStart(2, '0')}`,
      name: null,
      generation: at.generation,
      sire: at.pair.sire,
      dam: at.pair.dam,
      spawnId: at.card.spawnId,
      hatchDay: at.days.hatch,
      origin: null,
      note: null,
      recordedSex: makings.sex,
      lastSpawnDay: -Infinity,
    };
  }

  private countClasses(
    line: LinePlan,
    pair: Pair,
    mating: MatingPlan,
    brood: readonly Makings[],
    card: SpawnCard,
    days: BroodDays,
  ): void {
    const test = mating.purpose.startsWith('test mating');
    for (const locus of LOCI) {
      const shown = brood.some((fry) => doses(fry, locus) === 2);
      if (
        locus === line.counted ||
        (line.loci.includes(locus) && locus !== 'bl' && (shown || test))
      ) {
        card.classes(locus, days.classCount, brood);
      }
      if (!shown || days.classCount > this.setting.today) continue;
      for (const parent of [pair.sire, pair.dam]) {
        this.proven.set(parent, (this.proven.get(parent) ?? new Set()).add(locus));
        if (test) this.tested.add(parent);
      }
    }
  }

  pairing(
    pair: Pair,
    person: 0 | 1,
    day: number,
    reason: string,
    state: DemoPairing['state'] = 'spawned',
    note: string | null = null,
  ): string {
    const id = this.setting.ids.uuid();
    this.pairings.push({
      id,
      personId: this.setting.personIds[person] ?? '',
      sireId: pair.sire.id,
      damId: pair.dam.id,
      state,
      plannedOn: dateOf(day),
      reason,
      note,
    });
    return id;
  }

  private meanInbreeding({ sire, dam }: Pair): number {
    const of = (fish: SimulatedFish) => this.coancestry.between(fish.sire, fish.dam);
    return (of(sire) + of(dam)) / 2;
  }

  /** `RB24-07` for a spawn, `RBW24-02` at the partner's, `RB21-00-03` for a bought fish. */
  tag(line: LinePlan, person: 0 | 1, day: number, bought = ''): string {
    const year = `${line.code}${person === 1 ? 'W' : ''}${dateOf(day).slice(2, 4)}`;
    const key = `${year}-${bought}`;
    const number = (this.spawnNumbers.get(key) ?? 0) + 1;
    this.spawnNumbers.set(key, number);
    const text = String(number).padStart(2, '0');
    return bought === '' ? `${year}-${text}` : `${year}-${bought}-${text}`;
  }
}
