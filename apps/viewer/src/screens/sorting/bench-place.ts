/** What is typed and tapped for one fish, until it is entered. */
export interface Filled {
  readonly typed: ReadonlyMap<string, string>;
  readonly faultIds: ReadonlySet<string>;
  readonly note: string;
  readonly reason: string;
  /** Class at the counted locus. */
  readonly seen: string | null;
  readonly culling: boolean;
  /** A note was to be entered with neither a score nor a fault. */
  readonly noteAlone: boolean;
}

export const blank: Filled = {
  typed: new Map(),
  faultIds: new Set(),
  note: '',
  reason: '',
  seen: null,
  culling: false,
  noteAlone: false,
};

/** Where the person is at a spawn's bench: the fish in hand, and what is filled in for it and others. */
export interface BenchPlace {
  readonly fishId: string | null;
  readonly drafts: ReadonlyMap<string, Filled>;
  /** Day of the entries, where another than today was chosen. */
  readonly day: string | null;
}

export const nowhere: BenchPlace = { fishId: null, drafts: new Map(), day: null };

export const isBlank = ({ typed, faultIds, note, reason, seen }: Filled): boolean =>
  [...typed.values()].every((text) => text.trim() === '') &&
  faultIds.size === 0 &&
  note === '' &&
  reason === '' &&
  seen === null;

interface KeptDraft {
  readonly fishId: string;
  readonly typed: readonly (readonly [string, string])[];
  readonly faultIds: readonly string[];
  readonly note: string;
  readonly reason: string;
  readonly seen: string | null;
}

interface KeptPlace {
  readonly spawnId: string;
  readonly fishId: string | null;
  readonly day: string | null;
  readonly drafts: readonly KeptDraft[];
}

/** As many benches as are kept, the last used ones. */
const MOST_PLACES = 20;

export function placeText(before: string | null, spawnId: string, place: BenchPlace): string {
  const drafts = [...place.drafts]
    .filter(([, filled]) => !isBlank(filled))
    .map(([fishId, { typed, faultIds, note, reason, seen }]): KeptDraft => {
      return { fishId, typed: [...typed], faultIds: [...faultIds], note, reason, seen };
    });
  const kept: KeptPlace = { spawnId, fishId: place.fishId, day: place.day, drafts };
  const others = readPlaces(before).filter((each) => each.spawnId !== spawnId);
  return JSON.stringify([...others, kept].slice(-MOST_PLACES));
}

export function placeIn(text: string | null, spawnId: string): BenchPlace | null {
  const kept = readPlaces(text).find((each) => each.spawnId === spawnId);
  if (kept === undefined) return null;
  const drafts = kept.drafts.map(({ fishId, typed, faultIds, note, reason, seen }) => {
    const filled = { ...blank, typed: new Map(typed), faultIds: new Set(faultIds) };
    return [fishId, { ...filled, note, reason, seen }] as const;
  });
  return { fishId: kept.fishId, day: kept.day, drafts: new Map(drafts) };
}

function readPlaces(text: string | null): KeptPlace[] {
  try {
    const read: unknown = JSON.parse(text ?? '[]');
    return Array.isArray(read) ? (read as KeptPlace[]) : [];
  } catch {
    return [];
  }
}
