import { timeOf } from './calendar.js';
import type { DemoLine, DemoLinePurpose, DemoLookAim, DemoTraitDefinition } from './scenario.js';

interface PurposeWords {
  /** Days before the day the demo is looked at. */
  readonly said: number;
  readonly note: string | null;
  /** By key of the trait. */
  readonly traits: readonly {
    readonly key: string;
    readonly low: number | null;
    readonly worth: number;
  }[];
  readonly looks: readonly DemoLookAim[];
  readonly ceiling: number;
  readonly kinshipRise: number;
  readonly fry: number;
}

const look = (
  locus: string,
  phenotype: string,
  worth: number,
  more: { readonly wanted?: boolean; readonly required?: boolean } = {},
): DemoLookAim => ({
  look: { show: { [locus]: phenotype } },
  ...{ wanted: true, required: false, ...more },
  worth,
});

const aim = (key: string, worth: number, low: number | null = null) => ({ key, low, worth });

/** What the demo's lines are for, by code, the oldest version first. All points are invented. */
const PURPOSES: Readonly<Record<string, readonly PurposeWords[]>> = {
  RB: [
    {
      ...{ said: 400, note: null, ceiling: 0.25, kinshipRise: 0.03, fry: 300 },
      traits: [aim('caudal_spread', 0.2), aim('fin_balance', 2)],
      looks: [look('bl', 'royal', 4)],
    },
    {
      ...{ said: 30, ceiling: 0.35, kinshipRise: 0.02, fry: 240 },
      note: 'Too many double tails last autumn.',
      traits: [
        ...[aim('caudal_spread', 0.3, 160), aim('dorsal_width', 0.8)],
        ...[aim('colour_evenness', 2), aim('fin_balance', 1.5)],
      ],
      looks: [look('bl', 'royal', 4), look('dt', 'double', 5, { wanted: false, required: true })],
    },
  ],
  SB: [
    {
      ...{ said: 60, note: null, ceiling: 0.25, kinshipRise: 0.02, fry: 200 },
      traits: [aim('caudal_spread', 0.1), aim('colour_evenness', 2, 3)],
      looks: [look('m', 'melano', 6), look('al', 'albino', 2)],
    },
  ],
  PE: [
    {
      ...{ said: 45, note: null, ceiling: 0.35, kinshipRise: 0.02, fry: 200 },
      traits: [aim('colour_evenness', 2.5, 3), aim('fin_balance', 1)],
      looks: [look('c', 'cambodian', 6, { required: true })],
    },
  ],
};

interface Said {
  readonly lines: readonly DemoLine[];
  readonly definitions: readonly DemoTraitDefinition[];
  readonly today: number;
  readonly zone: string;
  readonly by: string;
}

/** What is said of each line, in versions. */
export function linePurposes({ lines, definitions, today, zone, by }: Said): DemoLinePurpose[] {
  const traitId = (key: string): string => definitions.find((one) => one.key === key)?.id ?? '';
  return lines.flatMap(({ id: lineId, code }) =>
    (PURPOSES[code] ?? []).map(({ said, note, traits, looks, ...round }, k): DemoLinePurpose => ({
      ...{ lineId, version: k + 1, note },
      ...{ byName: by, at: timeOf(today - said, 20, zone) },
      content: {
        traits: traits.map(({ key, ...wish }) => ({
          ...{ traitId: traitId(key), better: 'higher' as const, high: null },
          ...wish,
        })),
        ...{ looks, ...round },
      },
    })),
  );
}
