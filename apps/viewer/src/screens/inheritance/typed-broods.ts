import type { LinkageBrood } from '../../api/inheritance.js';
import { optionalWholeNumber } from '../../components/field-rules.js';

export const COUNTED = ['neither', 'firstOnly', 'secondOnly', 'both'] as const;
type Counted = (typeof COUNTED)[number];

/** A brood as typed; blank counts are 0. */
export interface TypedBrood extends Readonly<Record<Counted, string>> {
  readonly key: number;
  readonly carrier: LinkageBrood['carrier'];
  readonly phase: LinkageBrood['phase'];
}

export const blankBrood = (key: number): TypedBrood => ({
  key,
  carrier: 'SIRE',
  phase: 'UNKNOWN',
  neither: '',
  firstOnly: '',
  secondOnly: '',
  both: '',
});

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
