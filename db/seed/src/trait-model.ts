import type { DemoTraitDefinition } from './scenario.js';

/** A trait's definition and how its values come about in the demo. */
export interface TraitModel extends Omit<DemoTraitDefinition, 'id' | 'personId' | 'version'> {
  /** Mean of males and of females before selection; `null` for a trait that the demo does not score. */
  readonly mean: readonly [male: number, female: number] | null;
  /** Standard deviations of founders' breeding values and of everything not inherited. */
  readonly additive: number;
  readonly environmental: number;
  /** Values are rounded to multiples of this. */
  readonly step: number;
  /** Age in days at which the demo's people score it. */
  readonly scoredAt: number;
  /** What one and two doses of double tail add. */
  readonly doubleTail: readonly [number, number];
}

const plain = { doubleTail: [0, 0], unit: null, toAgeDays: null, grades: null } as const;
const outOfFive = {
  kind: 'ordinal',
  minimum: 0,
  maximum: 5,
  step: 1,
  higherIsBetter: true,
} as const;

/**
 * The traits a person finds defined at first, in the trade's words, with the ages at which it measures them.
 * The means and deviations are invented.
 */
export const TRAITS: readonly TraitModel[] = [
  {
    ...plain,
    key: 'caudal_spread',
    name: 'Caudal spread',
    kind: 'measured',
    unit: '°',
    minimum: 0,
    maximum: 240,
    higherIsBetter: true,
    fromAgeDays: 112,
    description:
      'Angle between the first and last ray of the tail, flaring. 180 is a halfmoon, 160 to 179 a superdelta, less a delta. Changes until 5 to 6 months.',
    grades: [
      { from: 0, name: 'delta' },
      { from: 160, name: 'superdelta' },
      { from: 180, name: 'halfmoon' },
      { from: 181, name: 'over-halfmoon' },
    ],
    mean: [156, 138],
    additive: 7,
    environmental: 7,
    step: 1,
    scoredAt: 128,
  },
  {
    ...plain,
    key: 'body_length',
    name: 'Body length',
    kind: 'measured',
    unit: 'mm',
    minimum: 5,
    maximum: 120,
    higherIsBetter: null,
    fromAgeDays: 56,
    description: 'From the snout to the end of the body, not counting the tail fin.',
    mean: [41, 35],
    additive: 1.4,
    environmental: 1.4,
    step: 0.5,
    scoredAt: 128,
  },
  {
    ...plain,
    key: 'dorsal_width',
    name: 'Dorsal width',
    kind: 'measured',
    unit: 'mm',
    minimum: 1,
    maximum: 60,
    higherIsBetter: true,
    fromAgeDays: 56,
    description: 'Width of the dorsal fin at its base.',
    mean: [12, 9],
    additive: 0.9,
    environmental: 0.9,
    step: 0.5,
    scoredAt: 80,
    doubleTail: [2, 6],
  },
  {
    ...plain,
    key: 'dorsal_rays',
    name: 'Dorsal rays',
    kind: 'count',
    minimum: 5,
    maximum: 30,
    higherIsBetter: null,
    fromAgeDays: 56,
    description:
      'Rays of the dorsal fin. The species has 9 to 10; the count alone does not prove double tail.',
    mean: [9.6, 9.6],
    additive: 0.4,
    environmental: 0.5,
    step: 1,
    scoredAt: 80,
    doubleTail: [1.4, 5],
  },
  {
    ...plain,
    key: 'web_reduction',
    name: 'Web reduction',
    kind: 'measured',
    unit: '%',
    minimum: 0,
    maximum: 100,
    higherIsBetter: null,
    fromAgeDays: 84,
    description:
      'How far the web between the tail rays is drawn in. From about 33 a crowntail, less a combtail.',
    grades: [
      { from: 0, name: 'combtail' },
      { from: 33, name: 'crowntail' },
    ],
    mean: null,
    additive: 0,
    environmental: 0,
    step: 1,
    scoredAt: 128,
  },
  {
    ...plain,
    ...outOfFive,
    key: 'ventral_condition',
    name: 'Ventral condition',
    fromAgeDays: 28,
    description: '5: both ventral fins long, straight and alike. 0: one is missing.',
    mean: [3.7, 3.7],
    additive: 0.4,
    environmental: 0.7,
    scoredAt: 58,
  },
  {
    ...plain,
    key: 'straight_spine',
    name: 'Straight spine',
    kind: 'yes_no',
    minimum: 0,
    maximum: 1,
    higherIsBetter: true,
    fromAgeDays: 28,
    description: '1: no bend or hump seen from the side and from above. 0: bent.',
    mean: [1, 1],
    additive: 0,
    environmental: 0,
    step: 1,
    scoredAt: 58,
  },
  {
    ...plain,
    ...outOfFive,
    key: 'colour_evenness',
    name: 'Colour evenness',
    fromAgeDays: 112,
    description: '5: one even colour over body and fins. 0: patches and wash all over.',
    mean: [3, 3],
    additive: 0.5,
    environmental: 0.6,
    scoredAt: 128,
  },
  {
    ...plain,
    ...outOfFive,
    key: 'fin_balance',
    name: 'Fin balance',
    fromAgeDays: 112,
    description:
      '5: dorsal, tail and anal fin match in size and their edges trace one curve. 0: one is far too small.',
    mean: [2.9, 2.9],
    additive: 0.5,
    environmental: 0.6,
    scoredAt: 128,
  },
  {
    ...plain,
    ...outOfFive,
    key: 'bearing',
    name: 'Bearing',
    fromAgeDays: 112,
    description: '5: lively, shows itself when a person comes near. 0: hides.',
    mean: [3.3, 3.1],
    additive: 0.3,
    environmental: 0.8,
    scoredAt: 128,
  },
];
