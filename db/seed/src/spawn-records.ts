import type { BroodDays, BroodNumbers } from './brood-numbers.js';
import { dateOf, timeOf } from './calendar.js';
import type { RandomSource } from './random-source.js';
import type {
  DemoClassCount,
  DemoSpawnCount,
  DemoSpawnEvent,
  DemoSpawnEventKind,
  DemoSpawnLoss,
  DemoSpawnStage,
} from './scenario.js';
import { type DemoLocus, type Genome, PHENOTYPES, doses } from './simulated-fish.js';

/** Writes the card of one spawn: nothing dated after today gets on it. */
export class SpawnCard {
  readonly events: DemoSpawnEvent[] = [];
  readonly counts: DemoSpawnCount[] = [];
  readonly losses: DemoSpawnLoss[] = [];
  readonly classCounts: DemoClassCount[] = [];

  constructor(
    readonly spawnId: string,
    private readonly today: number,
    private readonly zone: string,
    private readonly ids: RandomSource,
  ) {}

  event(kind: DemoSpawnEventKind, day: number, hour: number, note: string | null = null): void {
    if (day > this.today) return;
    this.events.push({
      id: this.ids.uuid(),
      spawnId: this.spawnId,
      kind,
      at: timeOf(day, hour, this.zone),
      note,
    });
  }

  count(stage: DemoSpawnStage, day: number, number: number, note: string | null = null): void {
    if (day > this.today) return;
    const countedOn = dateOf(day);
    this.counts.push({
      id: this.ids.uuid(),
      spawnId: this.spawnId,
      stage,
      countedOn,
      number,
      note,
    });
  }

  loss(
    kind: DemoSpawnLoss['kind'],
    day: number,
    number: number,
    reason: string,
    heritable = false,
  ): void {
    if (day > this.today || number <= 0) return;
    this.losses.push({
      id: this.ids.uuid(),
      spawnId: this.spawnId,
      kind,
      onDate: dateOf(day),
      number,
      reason,
      heritable,
      locusId: null,
      note: null,
    });
  }

  /** Counts a brood by what is seen at one locus; classes with nobody in them are left out. */
  classes(locus: DemoLocus, day: number, brood: readonly { readonly genome: Genome }[]): void {
    if (day > this.today) return;
    for (const phenotype of new Set(PHENOTYPES[locus])) {
      const number = brood.filter(
        (fry) => PHENOTYPES[locus][doses(fry, locus)] === phenotype,
      ).length;
      if (number === 0) continue;
      this.classCounts.push({
        id: this.ids.uuid(),
        spawnId: this.spawnId,
        locusIds: [locus],
        phenotype,
        number,
        countedOn: dateOf(day),
        note: null,
      });
    }
  }
}

/** Events, counts and losses from the pair's conditioning to jarring. */
export function writeNursery(
  card: SpawnCard,
  days: BroodDays,
  numbers: BroodNumbers,
  random: RandomSource,
): void {
  writeSpawning(card, days.spawn, random);
  card.count('eggs', days.spawn, numbers.eggs, 'estimated from a photograph of the nest');
  card.event('hatched', days.hatch, random.between(5, 20));
  card.count('hatched', days.hatch, numbers.hatched);
  card.loss('died', days.hatch, numbers.eggs - numbers.hatched, 'eggs that did not hatch');
  card.event('free_swimming', days.freeSwimming, random.between(6, 20));
  card.event('sire_out', days.freeSwimming + 1, 9);
  card.event(
    'first_food',
    days.freeSwimming + 1,
    9.5,
    'vinegar eels, from day 3 baby brine shrimp',
  );
  card.count('free_swimming', days.freeSwimming, numbers.freeSwimming);
  card.loss('died', days.freeSwimming, numbers.hatched - numbers.freeSwimming, 'never swam free');
  card.count('two_weeks', days.twoWeeks, numbers.twoWeeks);
  card.loss(
    'died',
    days.twoWeeks,
    numbers.freeSwimming - numbers.twoWeeks,
    'fry lost in the first two weeks',
  );
  card.event('moved', days.twoWeeks + 9, 18, 'to the grow-out tank');
  writeFirstCull(card, days.firstCull, numbers.structuralCull, random);
  const lost = numbers.twoWeeks - numbers.structuralCull - numbers.jarred;
  card.loss('died', days.jar, lost, 'lost between two weeks and jarring');
  card.event('jarred', days.jar, 17);
  card.count('jarred', days.jar, numbers.jarred);
}

export function writeSpawning(card: SpawnCard, spawnDay: number, random: RandomSource): void {
  card.event('conditioning', spawnDay - random.whole(9, 14), 8);
  card.event('introduced', spawnDay - 1, 18);
  card.event('nest', spawnDay, random.between(6, 8));
  card.event('spawned', spawnDay, random.between(9, 14));
  card.event('dam_out', spawnDay, 17);
}

function writeFirstCull(card: SpawnCard, day: number, number: number, random: RandomSource): void {
  const spines = Math.round(number * random.between(0.3, 0.6));
  const ventrals = Math.round((number - spines) * random.between(0.4, 0.8));
  card.loss('culled', day, spines, 'bent spine', true);
  card.loss('culled', day, ventrals, 'ventral fin missing or stubby', true);
  card.loss('culled', day, number - spines - ventrals, 'gill cover does not close');
}
