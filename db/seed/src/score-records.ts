import { dateOf } from './calendar.js';
import { PEOPLE_NAMES } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import type { DemoScore, DemoTraitDefinition } from './scenario.js';
import type { SimulatedFish } from './simulated-fish.js';
import { TRAITS } from './trait-model.js';

export function traitDefinitions(personId: string, ids: RandomSource): DemoTraitDefinition[] {
  return TRAITS.map((trait) => ({
    id: ids.uuid(),
    personId,
    key: trait.key,
    name: trait.name,
    kind: trait.kind,
    unit: trait.unit,
    minimum: trait.minimum,
    maximum: trait.maximum,
    higherIsBetter: trait.higherIsBetter,
    fromAgeDays: trait.fromAgeDays,
    toAgeDays: trait.toAgeDays,
    description: trait.description,
    grades: trait.grades,
    version: 1,
  }));
}

/** Scores of every fish born here, each at its trait's age, as long as the fish was there to be scored. */
export function scoreRecords(
  fish: readonly SimulatedFish[],
  definitions: readonly DemoTraitDefinition[],
  today: number,
  ids: RandomSource,
  random: RandomSource,
): DemoScore[] {
  const scores: DemoScore[] = [];
  for (const one of fish) {
    if (one.spawnId === null) continue;
    const late = random.whole(0, 5);
    const gone =
      one.disposition === 'culled' || one.disposition === 'died' || one.disposition === 'placed';
    const last = Math.min(today, gone ? (one.dispositionDay ?? today) : today);
    TRAITS.forEach((trait, index) => {
      const ageDays = trait.scoredAt + late;
      const definition = definitions[index];
      if (!definition || trait.mean === null || one.hatchDay + ageDays > last) return;
      scores.push({
        id: ids.uuid(),
        fishId: one.id,
        traitId: definition.id,
        traitVersion: definition.version,
        value: one.values[index] ?? 0,
        scoredOn: dateOf(one.hatchDay + ageDays),
        ageDays,
        scorer: PEOPLE_NAMES[one.person],
        note: null,
        correctsId: null,
        scoringId: null,
      });
    });
  }
  return scores;
}
