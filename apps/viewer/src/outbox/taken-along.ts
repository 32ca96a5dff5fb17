import type { BenchFacts } from '../api/entries.js';
import { forgetPlaces } from './kept-places.js';
import { device } from './this-device.js';

/** One spawn's bench as it was read, kept on the device so that it opens without a connection. */
export interface TakenAlong {
  readonly facts: BenchFacts;
  /** When it was asked for, by this device's clock. */
  readonly at: string;
  /** Sent entries that were settled before it was asked for, which it shows; absent in what an earlier version kept. */
  readonly settled?: readonly string[];
}

const keyOf = (personId: string, spawnId: string) => `${personId} ${spawnId}`;

export async function takeAlong(personId: string, spawnId: string, what: TakenAlong) {
  await (await device())?.put('taken', { key: keyOf(personId, spawnId), keeperId: personId, what });
}

export async function takenAlong(personId: string, spawnId: string): Promise<TakenAlong | null> {
  const row = await (await device())?.get('taken', keyOf(personId, spawnId));
  return (row?.what as TakenAlong | undefined) ?? null;
}

/** Every spawn's bench that is kept here for the person. */
export async function allTakenAlong(personId: string): Promise<TakenAlong[]> {
  try {
    const rows = (await (await device())?.getAll('taken')) ?? [];
    return rows.filter((row) => row.keeperId === personId).map((row) => row.what as TakenAlong);
  } catch {
    return [];
  }
}

/** At signing out: the records themselves leave the device; entries not yet sent stay. */
export async function leaveBehind(personId: string): Promise<void> {
  forgetPlaces(personId);
  const open = await device();
  if (open === null) return;
  for (const row of await open.getAll('taken'))
    if (row.keeperId === personId) await open.delete('taken', row.key);
}
