/** Fish chosen in a list, in the order they were chosen. */
export interface ChosenFish {
  readonly id: string;
  readonly tag: string;
}
export type Choice = readonly ChosenFish[];

/** As many as one act takes. */
export const MOST_CHOSEN = 200;

export interface Chose {
  readonly choice: Choice;
  /** Fish that were meant too, but are beyond the most. */
  readonly beyond: number;
}

/** Adds fish, each once, up to the most. */
export function withFish(choice: Choice, more: readonly ChosenFish[]): Chose {
  const there = new Set(choice.map(({ id }) => id));
  const fresh = more.filter(({ id }) => !there.has(id) && there.add(id));
  const taken = fresh.slice(0, Math.max(0, MOST_CHOSEN - choice.length));
  return {
    choice: [...choice, ...taken.map(({ id, tag }) => ({ id, tag }))],
    beyond: fresh.length - taken.length,
  };
}

export function withoutFish(choice: Choice, ids: readonly string[]): Choice {
  const gone = new Set(ids);
  return choice.filter(({ id }) => !gone.has(id));
}

/** The rows from the one chosen last to this one, both with; this one alone when the last is not in the list. */
export function rangeOf<Row extends ChosenFish>(
  rows: readonly Row[],
  lastId: string | null,
  row: Row,
): readonly Row[] {
  const from = rows.findIndex(({ id }) => id === lastId);
  const to = rows.findIndex(({ id }) => id === row.id);
  if (from === -1 || to === -1) return [row];
  return rows.slice(Math.min(from, to), Math.max(from, to) + 1);
}

/** What was kept as text; nothing of what is not a choice. */
export function choiceFrom(text: string | null): Choice {
  if (text === null) return [];
  try {
    const kept: unknown = JSON.parse(text);
    return Array.isArray(kept) ? kept.filter(isChosen).slice(0, MOST_CHOSEN) : [];
  } catch {
    return [];
  }
}

function isChosen(value: unknown): value is ChosenFish {
  if (typeof value !== 'object' || value === null) return false;
  const { id, tag } = value as Partial<ChosenFish>;
  return typeof id === 'string' && typeof tag === 'string';
}
