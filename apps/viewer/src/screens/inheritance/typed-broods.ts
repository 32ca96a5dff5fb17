import type { BroodOnRecord, LinkageBrood } from '../../api/inheritance.js';
import { optionalWholeNumber } from '../../components/field-rules.js';

export const COUNTED = ['neither', 'firstOnly', 'secondOnly', 'both'] as const;
type Counted = (typeof COUNTED)[number];

/** A brood as typed; blank counts are 0. */
export interface TypedBrood extends Readonly<Record<Counted, string>> {
  readonly key: number;
  /** Tag of the spawn it was taken from; empty for one typed by hand. */
  readonly spawnTag: string;
  readonly carrier: LinkageBrood['carrier'];
  readonly phase: LinkageBrood['phase'];
}

export const blankBrood = (key: number): TypedBrood => ({
  key,
  spawnTag: '',
  carrier: 'SIRE',
  phase: 'UNKNOWN',
  neither: '',
  firstOnly: '',
  secondOnly: '',
  both: '',
});

/** A brood on record, to be looked over and changed. */
export const broodOnRecord = (brood: BroodOnRecord, key: number): TypedBrood => ({
  key,
  spawnTag: brood.spawnTag,
  carrier: brood.carrier,
  phase: brood.phase,
  neither: String(brood.neither),
  firstOnly: String(brood.firstOnly),
  secondOnly: String(brood.secondOnly),
  both: String(brood.both),
});

/** What was typed by hand stays; what came from the records of before gives way to what they say now. */
export function withRecords(
  typed: readonly TypedBrood[],
  found: readonly BroodOnRecord[],
): readonly TypedBrood[] {
  const byHand = typed.filter(
    (brood) => brood.spawnTag === '' && COUNTED.some((kind) => brood[kind].trim() !== ''),
  );
  const all = [
    ...found.map((brood, place) => broodOnRecord(brood, place + 1)),
    ...byHand.map((brood, place) => ({ ...brood, key: found.length + place + 1 })),
  ];
  return all.length === 0 ? [blankBrood(1)] : all;
}

type Broods = readonly TypedBrood[];

export const changed = (typed: Broods, key: number, part: Partial<TypedBrood>): Broods =>
  typed.map((brood) => (brood.key === key ? { ...brood, ...part } : brood));

export const without = (typed: Broods, key: number): Broods =>
  typed.filter((brood) => brood.key !== key);

/** One more, whose key none of the others has. */
export const withBlank = (typed: Broods): Broods => [
  ...typed,
  blankBrood(1 + Math.max(0, ...typed.map(({ key }) => key))),
];

/** Broods with young, to be asked about; null when a count cannot be read. */
export function broodsOf(typed: readonly TypedBrood[]): LinkageBrood[] | null {
  const broods = typed.map(({ carrier, phase, ...counts }) => {
    const read = COUNTED.map((kind) => optionalWholeNumber.safeParse(counts[kind]));
    const [neither, firstOnly, secondOnly, both] = read.map((one) =>
      one.success ? (one.data ?? 0) : NaN,
    ) as [number, number, number, number];
    return { carrier, phase, neither, firstOnly, secondOnly, both };
  });
  const young = (brood: LinkageBrood): number =>
    brood.neither + brood.firstOnly + brood.secondOnly + brood.both;
  if (broods.some((brood) => Number.isNaN(young(brood)))) return null;
  return broods.filter((brood) => young(brood) > 0);
}
