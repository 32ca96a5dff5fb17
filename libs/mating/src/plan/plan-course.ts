import { addDays, daysBetween } from '../calendar.js';
import type { PlanBrood, PlanParent } from './planned-broods.js';

/** A brood is late after so many days beyond its day: our own choice, no source. */
export const LATE_AFTER_DAYS = 30;
/** An allele counts as not found where no young carries it with at least this chance: our own choice. */
export const ALLELE_FOUND_FROM = 0.05;
/** So few young tell nothing of a whole brood: our own choice, no source. */
export const LEAST_YOUNG_LOOKED_AT = 5;
/** F may be above what was planned by so much, without a word: our own choice. */
const INBREEDING_MARGIN = 0.005;

/** A route that was adopted for a line. */
export interface AdoptedPlan {
  /** ISO date. */
  readonly adoptedOn: string;
  readonly purposeVersion: number;
  readonly broods: readonly PlanBrood[];
  /** From the adoption to the first spawn, and from one generation to the next. */
  readonly daysToFirst: number;
  readonly daysPerGeneration: number;
  /** Share of a brood that has to pass, and the highest F of it. */
  readonly share: number;
  readonly ceiling: number;
  /** Chance that the target is reached by the first, second, … generation, as simulated when it was adopted. */
  readonly byGeneration: readonly number[];
}

/** A spawn on record that may be one of the plan, and what came of it. */
export interface PlanSpawn {
  readonly id: string;
  readonly sireId: string | null;
  readonly damId: string | null;
  /** The spawns that sire and dam come from; `null`: not known. */
  readonly sireSpawnId: string | null;
  readonly damSpawnId: string | null;
  /** ISO date of spawning, else of hatching; `null`: not known. */
  readonly on: string | null;
  readonly failed: boolean;
  readonly inbreeding: number;
  /** Young with a record of their own, and those of them that are not sorted yet. */
  readonly recorded: number;
  readonly unsorted: number;
  /** Of those with a record, how many passed what the line asks for when they were looked at. */
  readonly passed: number;
  /** Young in use that swim here. */
  readonly males: number;
  readonly females: number;
  /** For each allele that is wanted, the highest chance among the young in use that one carries it; empty: not known. */
  readonly carried: readonly { readonly allele: string; readonly chance: number }[];
}

export interface PlanEvents {
  readonly spawns: readonly PlanSpawn[];
  /** Fish that the plan names and that are no longer in use, or do not swim here. */
  readonly gone: ReadonlySet<string>;
  /** What the keeper said of a brood: the spawn that is it, or `null` for none. */
  readonly chosen: ReadonlyMap<number, string | null>;
  readonly purposeVersion: number;
  /** ISO date. */
  readonly today: string;
}

export interface PlanStep {
  /** Place of the brood in the plan. */
  readonly brood: number;
  /** The day on which it was to spawn. */
  readonly due: string;
  /** `now`: its parents are there to be paired; `later`: it waits for an earlier brood. */
  readonly state: 'done' | 'now' | 'later';
  readonly spawnId: string | null;
  /** Whether the keeper said which spawn it is. */
  readonly chosen: boolean;
  /** Spawns of its parents that failed. */
  readonly failed: readonly string[];
  /** Days from the day planned to the spawn, of one not spawned to today; negative: earlier. `null`: it waits, or the day is not known. */
  readonly daysLate: number | null;
}

/** Why a plan is off course. */
export type PlanProblem =
  | { readonly kind: 'late'; readonly brood: number; readonly days: number }
  | { readonly kind: 'parent-gone'; readonly brood: number; readonly fishId: string }
  | { readonly kind: 'no-young'; readonly brood: number; readonly sex: 'male' | 'female' }
  | {
      readonly kind: 'allele-not-found';
      readonly brood: number;
      readonly allele: string;
      readonly chance: number;
    }
  | {
      readonly kind: 'inbreeding';
      readonly brood: number;
      readonly inbreeding: number;
      readonly planned: number;
    }
  | { readonly kind: 'purpose-changed'; readonly version: number };

export interface PlanCourse {
  /** `reached`: whatever else came otherwise. */
  readonly state: 'on-course' | 'off-course' | 'finished' | 'reached';
  /** Place of the first brood that reached the target by the records; `null`: none has. */
  readonly reachedBy: number | null;
  /** In the order of the plan's broods. */
  readonly steps: readonly PlanStep[];
  readonly problems: readonly PlanProblem[];
  /** Generations all broods of which have spawned. */
  readonly generationsDone: number;
  /**
   * Chance that the target is still reached if no brood so far has reached it: (p - q)/(1 - q) with p at the end and q by the generations done,
   * of the simulations at adoption. `null`: each of them had reached it by now.
   */
  readonly chanceLeft: number | null;
}

/**
 * How a plan goes: which spawn on record is which of its broods, and why it is off course if it is.
 *
 * A spawn is a planned brood when sire and dam are the fish that were planned, or come from the spawn of the brood that they were to be
 * chosen from, and it is not earlier than the plan; of several the earliest. A spawn is at most one brood; what the keeper said goes before.
 * Cost: broods × spawns.
 *
 * @throws MatingError MATING_BAD_DATE.
 */
export function planCourse(plan: AdoptedPlan, events: PlanEvents): PlanCourse {
  const matched = matchedSpawns(plan, events);
  const steps = plan.broods.map((brood, place) => stepOf(plan, events, matched, brood, place));
  const problems = [
    ...steps.flatMap((step) => problemsOf(plan, events, matched, steps, step)),
    ...(events.purposeVersion === plan.purposeVersion
      ? []
      : [{ kind: 'purpose-changed' as const, version: events.purposeVersion }]),
  ];
  const open = steps.find(({ state }) => state !== 'done');
  const done = open === undefined ? Infinity : plan.broods[open.brood]!.generation - 1;
  const generationsDone = Math.min(done, plan.byGeneration.length);
  const finished = open === undefined;
  const reached = matched.findIndex((spawn) => spawn !== null && reachesTarget(plan, spawn));
  const came = problems.length > 0 ? 'off-course' : finished ? 'finished' : 'on-course';
  return {
    state: reached >= 0 ? 'reached' : came,
    reachedBy: reached < 0 ? null : reached,
    ...{ steps, problems, generationsDone },
    chanceLeft: chanceLeft(plan, generationsDone),
  };
}

/** Young with a record that were not looked at count as if they did not pass. */
const reachesTarget = (
  { share, ceiling }: AdoptedPlan,
  { recorded, passed, inbreeding }: PlanSpawn,
): boolean =>
  recorded >= LEAST_YOUNG_LOOKED_AT &&
  passed >= share * recorded - 1e-9 &&
  inbreeding <= ceiling + 1e-9;

function chanceLeft({ byGeneration }: AdoptedPlan, done: number): number | null {
  const reached = done === 0 ? 0 : byGeneration[done - 1]!;
  if (reached >= 1) return null;
  return ((byGeneration.at(-1) ?? 0) - reached) / (1 - reached);
}

type Matched = readonly (PlanSpawn | null)[];

const isParent = (
  planned: PlanParent,
  fishId: string | null,
  spawnId: string | null,
  matched: Matched,
): boolean => {
  if (planned.kind === 'fish') return planned.id === fishId;
  const from = matched[planned.brood];
  return from !== null && from !== undefined && from.id === spawnId;
};

const isOfPair = (brood: PlanBrood, spawn: PlanSpawn, matched: Matched): boolean =>
  isParent(brood.sire, spawn.sireId, spawn.sireSpawnId, matched) &&
  isParent(brood.dam, spawn.damId, spawn.damSpawnId, matched);

const byDay = (a: PlanSpawn, b: PlanSpawn): number =>
  (a.on ?? '').localeCompare(b.on ?? '') || a.id.localeCompare(b.id);

const sinceAdoption = (
  { adoptedOn }: AdoptedPlan,
  spawns: readonly PlanSpawn[],
): readonly PlanSpawn[] =>
  spawns.filter(({ on }) => on !== null && on >= adoptedOn).toSorted(byDay);

function matchedSpawns(plan: AdoptedPlan, { spawns, chosen }: PlanEvents): Matched {
  const candidates = sinceAdoption(plan, spawns).filter(({ failed }) => !failed);
  const used = new Set([...chosen.values()].filter((id) => id !== null));
  const matched: (PlanSpawn | null)[] = [];
  for (const [place, brood] of plan.broods.entries()) {
    const said = chosen.get(place);
    const found =
      said === undefined
        ? candidates.find((one) => !used.has(one.id) && isOfPair(brood, one, matched))
        : spawns.find(({ id }) => id === said);
    if (found !== undefined) used.add(found.id);
    matched.push(found ?? null);
  }
  return matched;
}

function stepOf(
  plan: AdoptedPlan,
  { spawns, chosen, today }: PlanEvents,
  matched: Matched,
  brood: PlanBrood,
  place: number,
): PlanStep {
  const due = addDays(
    plan.adoptedOn,
    plan.daysToFirst + (brood.generation - 1) * plan.daysPerGeneration,
  );
  const spawn = matched[place] ?? null;
  const ready = [brood.sire, brood.dam].every(
    (parent) => parent.kind === 'fish' || matched[parent.brood] !== null,
  );
  const state = spawn !== null ? 'done' : ready ? 'now' : 'later';
  const until = spawn === null ? today : spawn.on;
  return {
    ...{ brood: place, due, state, spawnId: spawn?.id ?? null, chosen: chosen.has(place) },
    failed: sinceAdoption(plan, spawns)
      .filter((one) => one.failed && one.id !== spawn?.id && isOfPair(brood, one, matched))
      .map(({ id }) => id),
    daysLate: state === 'later' || until === null ? null : daysBetween(due, until),
  };
}

function problemsOf(
  plan: AdoptedPlan,
  events: PlanEvents,
  matched: Matched,
  steps: readonly PlanStep[],
  { brood, state, daysLate }: PlanStep,
): PlanProblem[] {
  const planned = plan.broods[brood]!;
  const spawn = matched[brood];
  if (spawn !== null && spawn !== undefined)
    return [
      ...aboveInbreeding(plan, planned, spawn, brood),
      ...missingYoung(plan, steps, spawn, brood),
    ];
  const gone = [planned.sire, planned.dam].flatMap((parent): PlanProblem[] =>
    parent.kind === 'fish' && events.gone.has(parent.id)
      ? [{ kind: 'parent-gone', brood, fishId: parent.id }]
      : [],
  );
  const late = state === 'now' && daysLate !== null && daysLate > LATE_AFTER_DAYS;
  return late ? [...gone, { kind: 'late', brood, days: daysLate }] : gone;
}

function aboveInbreeding(
  { ceiling }: AdoptedPlan,
  { inbreeding: planned }: PlanBrood,
  { inbreeding }: PlanSpawn,
  brood: number,
): PlanProblem[] {
  const above = inbreeding > planned + INBREEDING_MARGIN || inbreeding > ceiling + 1e-9;
  return above ? [{ kind: 'inbreeding', brood, inbreeding, planned }] : [];
}

/** What a brood had to give to broods that are still to come, and has not. */
function missingYoung(
  { broods }: AdoptedPlan,
  steps: readonly PlanStep[],
  spawn: PlanSpawn,
  brood: number,
): PlanProblem[] {
  const open = broods.filter((_, place) => steps[place]!.state !== 'done');
  const from = (parent: PlanParent): boolean => parent.kind === 'best' && parent.brood === brood;
  const needs = {
    male: open.some(({ sire }) => from(sire)),
    female: open.some(({ dam }) => from(dam)),
  };
  const sorted = spawn.recorded > 0 && spawn.unsorted === 0;
  if (!sorted || (!needs.male && !needs.female)) return [];
  const missing = (['male', 'female'] as const).filter(
    (sex) => needs[sex] && (sex === 'male' ? spawn.males : spawn.females) === 0,
  );
  const lost = spawn.carried.filter(({ chance }) => chance < ALLELE_FOUND_FROM);
  return [
    ...missing.map((sex): PlanProblem => ({ kind: 'no-young', brood, sex })),
    ...lost.map(({ allele, chance }): PlanProblem => ({
      ...{ kind: 'allele-not-found', brood, allele, chance },
    })),
  ];
}
