import { twoAlleleLocus, type CarrierEvidence } from '@linewright/heredity';
import { pedigreeFromArrays } from '@linewright/pedigree';
import fc from 'fast-check';
import type { BruteForceCase } from './heredity-brute-force.js';

export const locus = twoAlleleLocus({
  id: 'd',
  name: 'D',
  symbols: ['D', 'd'],
  looks: ['normal', 'affected'],
});

export interface Drawn {
  readonly parents: readonly (readonly [number, number])[];
  readonly q: number;
  readonly looks: readonly (0 | 1 | 2)[];
  readonly broods: readonly (readonly [number, number, number, number])[];
  readonly misScoring: number;
}

/** Records of up to `most` fish. */
export const drawn = (most: number): fc.Arbitrary<Drawn> =>
  fc.record({
    parents: fc.array(
      fc.tuple(fc.integer({ min: -3, max: most - 1 }), fc.integer({ min: -3, max: most - 1 })),
      { minLength: 3, maxLength: most },
    ),
    q: fc.double({ min: 0.05, max: 0.95, noNaN: true }),
    looks: fc.array(fc.constantFrom(0, 1, 2) as fc.Arbitrary<0 | 1 | 2>, {
      minLength: most,
      maxLength: most,
    }),
    broods: fc.array(fc.tuple(fc.nat(most - 1), fc.nat(most - 1), fc.nat(6), fc.nat(3)), {
      maxLength: 3,
    }),
    misScoring: fc.constantFrom(0, 0, 0.05),
  });

/** A pedigree with many loops: parents are any earlier fish, or unknown. */
export function build(input: Drawn): { brute: BruteForceCase; evidence: CarrierEvidence[] } {
  const n = input.parents.length;
  const sire = new Int32Array(n).fill(-1);
  const dam = new Int32Array(n).fill(-1);
  input.parents.forEach(([s, d], i) => {
    if (i === 0) return;
    sire[i] = s < 0 ? -1 : s % i;
    dam[i] = d < 0 ? -1 : d % i;
    if (sire[i]! >= 0 && sire[i] === dam[i]) dam[i] = -1;
  });
  const pedigree = pedigreeFromArrays(sire, dam);
  const e = input.misScoring;
  const seen = new Map<number, readonly [number, number, number]>();
  const evidence: CarrierEvidence[] = [];
  for (let i = 0; i < n; i++) {
    const look = input.looks[i] ?? 0;
    if (look === 0) continue;
    const affected = look === 2;
    seen.set(i, affected ? [e, e, 1 - e] : [1 - e, 1 - e, e]);
    evidence.push({
      kind: 'phenotype',
      id: `p${i}`,
      fish: pedigree.ids[i]!,
      phenotype: affected ? 'affected' : 'normal',
      misScoring: e,
    });
  }
  const broods = input.broods
    .map(([s, d, normal, recessive]) => ({ sire: s % n, dam: d % n, normal, recessive }))
    .filter((one) => one.sire !== one.dam);
  broods.forEach((one, i) =>
    evidence.push({
      kind: 'brood',
      id: `b${i}`,
      sire: pedigree.ids[one.sire]!,
      dam: pedigree.ids[one.dam]!,
      counts: { normal: one.normal, affected: one.recessive },
      misScoring: 0,
    }),
  );
  return { brute: { pedigree, q: input.q, seen, broods }, evidence };
}
