import { type PlanBrood, type Scheme, SCHEMES } from '@linewright/mating';
import { z } from 'zod';
import { LARGEST_COUNT } from '../../limits/lengths.js';

/** A route as it was adopted, and what was expected of it then. */
export interface AdoptedRoute {
  readonly scheme: Scheme;
  /** The fish that it begins with, in the order of the scheme. */
  readonly fish: readonly string[];
  readonly broods: readonly PlanBrood[];
  /** What was searched for: the share of young that pass, and the ceiling on F. */
  readonly share: number;
  readonly ceiling: number;
  /** Young of a brood to raise to the age of sorting. */
  readonly fryPerBrood: number;
  readonly daysToFirst: number;
  readonly daysPerGeneration: number;
  readonly chance: number;
  readonly low: number;
  readonly high: number;
  readonly byGeneration: readonly number[];
  readonly simulations: number;
  readonly meanGenerations: number | null;
  readonly fry: number;
}

/** What the keeper said of one brood of the plan: the spawn that is it; `null`: none so far is. */
export interface ChosenSpawn {
  readonly brood: number;
  readonly spawnId: string | null;
}

const MOST_BROODS = 16;
const share = z.number().min(0).max(1);
const brood = z.int().min(0).max(MOST_BROODS);
const days = z.number().min(0);
const parent = z.discriminatedUnion('kind', [
  z.looseObject({ kind: z.literal('fish'), id: z.guid() }),
  z.looseObject({ kind: z.literal('best'), brood }),
]);

/** A route as a row keeps it. */
export const lineRouteShape = z.looseObject({
  scheme: z.enum(SCHEMES),
  fish: z.array(z.guid()).max(4),
  broods: z
    .array(
      z.looseObject({
        generation: z.int().min(1).max(8),
        sire: parent,
        dam: parent,
        inbreeding: share,
      }),
    )
    .max(MOST_BROODS),
  ...{ share, ceiling: share, fryPerBrood: z.int().min(1).max(LARGEST_COUNT) },
  ...{ daysToFirst: days, daysPerGeneration: days },
  ...{ chance: share, low: share, high: share, byGeneration: z.array(share).max(8) },
  ...{ simulations: z.int().min(0), meanGenerations: z.number().nullable(), fry: days },
});

export const chosenSpawnsShape = z
  .array(z.looseObject({ brood, spawnId: z.guid().nullable() }))
  .max(MOST_BROODS);

/** Stands for what cannot be read: a plan without a brood. */
export const unreadableRoute = (): AdoptedRoute => ({
  ...{ scheme: 'siblings', fish: [], broods: [], share: 1, ceiling: 1, fryPerBrood: 1 },
  ...{ daysToFirst: 0, daysPerGeneration: 0, chance: 0, low: 0, high: 1, byGeneration: [] },
  ...{ simulations: 0, meanGenerations: null, fry: 0 },
});
