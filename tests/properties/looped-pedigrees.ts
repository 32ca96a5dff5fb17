import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import fc from 'fast-check';

/**
 * Random pedigrees with loops: fish of even index are males, of odd index females; each takes its parents from all fish before
 * it or from the latest few (which makes deep, narrow lines), takes its elder's parents (full sibs), or lacks one or both.
 */
export const loopedPedigrees = (maxSize: number): fc.Arbitrary<Pedigree> =>
  fc
    .array(
      fc.record({
        sire: fc.nat(999),
        dam: fc.nat(999),
        kind: fc.constantFrom(
          'own',
          'own',
          'own',
          'sib',
          'sib',
          'founder',
          'sire only',
          'dam only',
        ),
        narrow: fc.boolean(),
      }),
      { minLength: 2, maxLength: maxSize },
    )
    .map((draws) => {
      const sire = new Int32Array(draws.length).fill(-1);
      const dam = new Int32Array(draws.length).fill(-1);
      draws.forEach((draw, i) => {
        const males = (i + 1) >> 1;
        const females = i >> 1;
        const pick = (count: number, share: number): number => {
          const from = draw.narrow ? Math.max(0, count - 3) : 0;
          return count === 0 ? -1 : from + Math.floor((share / 1000) * (count - from));
        };
        const male = pick(males, draw.sire);
        const female = pick(females, draw.dam);
        if (draw.kind === 'own' || draw.kind === 'sire only') sire[i] = male < 0 ? -1 : 2 * male;
        if (draw.kind === 'own' || draw.kind === 'dam only')
          dam[i] = female < 0 ? -1 : 2 * female + 1;
        if (draw.kind === 'sib' && i > 0) {
          sire[i] = sire[i - 1]!;
          dam[i] = dam[i - 1]!;
        }
      });
      return pedigreeFromArrays(sire, dam);
    });
