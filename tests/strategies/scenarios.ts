import { tabularRelationship } from '@linewright/kinship';
import type { LineBelief, LinePurpose } from '@linewright/mating';
import { parseGenotype } from '@linewright/heredity';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { recessive, showing } from '../made-belief.js';
import type { History } from './merit-values.js';

/** A kind of line that strategies are tried on: how the truth is drawn, and what is wanted. */
export interface Scenario {
  readonly name: string;
  readonly about: string;
  readonly history: History;
  /** Nothing is known of single fish in it: drawing from it draws a true line. */
  readonly truth: LineBelief;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks'>;
}

/** Heritability 0.3, as is usual for shape and size; phenotypic variance 100. */
const TRAIT = { level: 0, additive: 30, commonBrood: 0, residual: 70 };

const higher = (traitId: string) =>
  ({ traitId, better: 'higher', low: null, high: null, worth: 1 }) as const;

const founders = (count: number): History => ({
  sire: Array.from({ length: count }, () => -1),
  dam: Array.from({ length: count }, () => -1),
  actual: Array.from({ length: count }, (_, k) => k),
});

/** Eight fish of the fourth generation of brother by sister, out of two broods: F 0.375. */
function sibLine(): History {
  const [sire, dam] = [[-1, -1], [-1, -1]]; // prettier-ignore
  const pair = (a: number, b: number): [number, number] => {
    sire.push(a, a);
    dam.push(b, b);
    return [sire.length - 2, sire.length - 1];
  };
  const first = pair(0, 1);
  const second = pair(...first);
  const [third, fourth] = [pair(...second), pair(...second)];
  const actual: number[] = [];
  for (const [a, b] of [third, fourth])
    for (let k = 0; k < 4; k++) {
      sire.push(a);
      dam.push(b);
      actual.push(sire.length - 1);
    }
  return { sire, dam, actual };
}

function truthOf(
  history: History,
  traits: readonly string[],
  more: Partial<LineBelief> = {},
): LineBelief {
  const pedigree = pedigreeFromArrays(Int32Array.from(history.sire), Int32Array.from(history.dam));
  const table = tabularRelationship(pedigree);
  const size = history.actual.length;
  const related = Float64Array.from(
    { length: size ** 2 },
    (_, k) =>
      table[history.actual[Math.floor(k / size)]! * pedigree.size + history.actual[k % size]!]!,
  );
  return {
    fish: history.actual.map((one) => `fish ${String(one)}`),
    sex: history.actual.map((_, k) => (k % 2 === 0 ? 'male' : 'female')),
    coancestry: related.map((one) => one / 2),
    traits: traits.map((traitId) => ({
      ...TRAIT,
      traitId,
      value: new Float64Array(size),
      error: related.map((one) => one * TRAIT.additive),
    })),
    loci: [],
    ...more,
  };
}

const eight = founders(8);
const rare = recessive('rare');
const rareLocus = {
  locus: rare,
  groups: eight.actual.map((_, k) => ({
    fish: [k],
    outcomes: [{ genotypes: [parseGenotype(rare, k === 0 ? 'A/a' : 'A/A')], probability: 1 }],
  })),
};

export const SCENARIOS: readonly Scenario[] = [
  {
    name: 'One trait',
    about: 'eight unrelated fish, one trait of heritability 0.3',
    history: eight,
    truth: truthOf(eight, ['spread']),
    purpose: { traits: [higher('spread')], looks: [] },
  },
  {
    name: 'Two that pull apart',
    about:
      'the same with two traits whose inherited parts are correlated by -0.5, both worth the same',
    history: eight,
    truth: truthOf(eight, ['spread', 'body'], {
      correlation: Float64Array.from([1, -0.5, -0.5, 1]),
    }),
    purpose: { traits: [higher('spread'), higher('body')], looks: [] },
  },
  {
    name: 'A rare recessive wanted',
    about: 'one trait, and a recessive look worth 10 points that one of the eight carries unseen',
    history: eight,
    truth: truthOf(eight, ['spread'], { loci: [rareLocus] }),
    purpose: { traits: [higher('spread')], looks: [showing('rare', { worth: 10 })] },
  },
  {
    name: 'A line near F 0.4',
    about: 'one trait, eight fish of F 0.375 out of two broods of one sib-mated line',
    history: sibLine(),
    truth: truthOf(sibLine(), ['spread']),
    purpose: { traits: [higher('spread')], looks: [] },
  },
];
