import {
  coancestry,
  coancestryBlock,
  GrowingKinship,
  groupUnknownParents,
  inbreedingCoefficients,
  meanKinship,
  multiplyRelationship,
  relationshipInverse,
  tabularInbreeding,
  tabularRelationship,
  tracedInbreeding,
} from '@linewright/kinship';
import { ancestors, buildPedigree, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopedPedigrees } from './looped-pedigrees.js';

const seed = 20_261_126;
const tolerance = 12;

const a = (table: Float64Array, pedigree: Pedigree, i: number, j: number): number =>
  table[i * pedigree.size + j]!;

/** Individuals of a pedigree, chosen by the bits of a number. */
const chosen = (pedigree: Pedigree, bits: number): number[] =>
  Array.from({ length: pedigree.size }, (_, i) => i).filter((i) => (bits >>> ((i * 7) % 31)) & 1);

/** Founders with made-up coancestries of a few common factors, as real founders could have. */
function relatedFounders(pedigree: Pedigree, shares: readonly number[]) {
  const founders = [...pedigree.sire.keys()].filter(
    (i) => pedigree.sire[i]! < 0 && pedigree.dam[i]! < 0 && shares[i % shares.length]! > 0.2,
  );
  const share = (i: number) => shares[i % shares.length]! / 2;
  const coancestries = founders.flatMap((i) =>
    founders.map((j) => (i === j ? 0.5 + share(i) ** 2 / 2 : share(i) * share(j))),
  );
  return { founders, coancestry: coancestries };
}

describe(`methods on random looped pedigrees (seed ${seed})`, () => {
  it('give one F: table, level pass, trace, and the chooser', () => {
    fc.assert(
      fc.property(loopedPedigrees(80), (pedigree) => {
        const table = tabularRelationship(pedigree);
        const byLevel = tabularInbreeding(pedigree);
        const traced = tracedInbreeding(pedigree);
        const auto = inbreedingCoefficients(pedigree);
        for (let i = 0; i < pedigree.size; i++) {
          const f = a(table, pedigree, i, i) - 1;
          expect(byLevel[i]).toBeCloseTo(f, tolerance);
          expect(traced[i]).toBeCloseTo(f, tolerance);
          expect(auto[i]).toBeCloseTo(f, tolerance);
          expect(f).toBeGreaterThanOrEqual(0);
          expect(f).toBeLessThanOrEqual(1);
        }
      }),
      { seed, numRuns: 2000 },
    );
  });

  it('give one coancestry: table, pair trace, block and product', () => {
    fc.assert(
      fc.property(loopedPedigrees(40), fc.nat(), fc.nat(), (pedigree, left, right) => {
        const table = tabularRelationship(pedigree);
        const rows = chosen(pedigree, left);
        const columns = chosen(pedigree, right);
        const block = coancestryBlock(pedigree, rows, columns);
        rows.forEach((i, r) => {
          columns.forEach((j, c) => {
            const expected = a(table, pedigree, i, j) / 2;
            expect(block[r * columns.length + c]).toBeCloseTo(expected, tolerance);
            expect(coancestry(pedigree, i, j)).toBeCloseTo(expected, tolerance);
            expect(coancestry(pedigree, j, i)).toBe(coancestry(pedigree, i, j));
          });
        });
        const x = Float64Array.from({ length: pedigree.size }, (_, i) => Math.sin(i + left));
        const product = multiplyRelationship(pedigree, x);
        product.forEach((value, i) => {
          const expected = x.reduce((sum, xj, j) => sum + a(table, pedigree, i, j) * xj, 0);
          expect(value).toBeCloseTo(expected, tolerance - 2);
        });
      }),
      { seed, numRuns: 1000 },
    );
  });

  it('agree when founders are inbred and related', () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
      minLength: 1,
      maxLength: 7,
    });
    fc.assert(
      fc.property(loopedPedigrees(40), shares, fc.nat(), (pedigree, draws, bits) => {
        const options = { founders: relatedFounders(pedigree, draws) };
        const table = tabularRelationship(pedigree, options);
        const byLevel = tabularInbreeding(pedigree, options);
        const traced = tracedInbreeding(pedigree, options);
        const fish = chosen(pedigree, bits);
        const block = coancestryBlock(pedigree, fish, fish, options);
        for (let i = 0; i < pedigree.size; i++) {
          expect(byLevel[i]).toBeCloseTo(a(table, pedigree, i, i) - 1, tolerance);
          expect(traced[i]).toBeCloseTo(a(table, pedigree, i, i) - 1, tolerance);
        }
        fish.forEach((i, r) => {
          fish.forEach((j, c) => {
            const expected = a(table, pedigree, i, j) / 2;
            expect(block[r * fish.length + c]).toBeCloseTo(expected, tolerance);
            if ((r + c) % 5 === 0) {
              expect(coancestry(pedigree, i, j, options)).toBeCloseTo(expected, tolerance);
            }
          });
        });
      }),
      { seed, numRuns: 700 },
    );
  });

  it('give an inverse whose product with A is the unit matrix', () => {
    fc.assert(
      fc.property(loopedPedigrees(30), (pedigree) => {
        const table = tabularRelationship(pedigree);
        const { rows, columns, values } = relationshipInverse(pedigree);
        const { size } = pedigree;
        const product = new Float64Array(size * size);
        rows.forEach((i, k) => {
          for (let j = 0; j < size; j++) {
            product[i * size + j]! += values[k]! * a(table, pedigree, columns[k]!, j);
          }
        });
        product.forEach((value, k) => expect(value).toBeCloseTo(k % (size + 1) === 0 ? 1 : 0, 8));
      }),
      { seed, numRuns: 500 },
    );
  });

  it('give the same F to a pedigree grown spawn by spawn; young leave their ancestors alone', () => {
    fc.assert(
      fc.property(loopedPedigrees(60), fc.nat(), (pedigree, cut) => {
        const whole = inbreedingCoefficients(pedigree);
        const known = 1 + (cut % pedigree.size);
        const start = pedigreeFromArrays(
          pedigree.sire.slice(0, known),
          pedigree.dam.slice(0, known),
        );
        const before = inbreedingCoefficients(start);
        const growing = new GrowingKinship(start);
        for (let i = known; i < pedigree.size; i++) {
          expect(growing.addSpawn(pedigree.sire[i]!, pedigree.dam[i]!, 1).first).toBe(i);
        }
        growing.inbreeding().forEach((f, i) => expect(f).toBeCloseTo(whole[i]!, tolerance));
        before.forEach((f, i) => expect(f).toBeCloseTo(whole[i]!, tolerance));
      }),
      { seed, numRuns: 500 },
    );
  });

  it('do not depend on names or on the order of records', () => {
    fc.assert(
      fc.property(loopedPedigrees(40), fc.infiniteStream(fc.nat()), (pedigree, keys) => {
        const draw = keys[Symbol.iterator]();
        const records = pedigree.ids.map((_, i) => ({
          record: {
            id: `fish ${(i * 7919) % 10007}`,
            sire: parentName(pedigree.sire[i]!),
            dam: parentName(pedigree.dam[i]!),
          },
          key: draw.next().value as number,
        }));
        records.sort((x, y) => x.key - y.key);
        const moved = buildPedigree(records.map(({ record }) => record));
        const f = inbreedingCoefficients(pedigree);
        const again = inbreedingCoefficients(moved);
        const block = chosen(pedigree, keys.next().value as number);
        const places = block.map((i) => moved.indexOf(parentName(i)!));
        f.forEach((value, i) => {
          expect(again[moved.indexOf(parentName(i)!)]).toBeCloseTo(value, tolerance);
        });
        const kinships = meanKinship(pedigree, block);
        meanKinship(moved, places).forEach((value, k) => {
          expect(value).toBeCloseTo(kinships[k]!, tolerance);
        });
      }),
      { seed, numRuns: 500 },
    );
  });

  it('mean kinship is the mean of the block', () => {
    fc.assert(
      fc.property(loopedPedigrees(40), fc.nat(), (pedigree, bits) => {
        const fish = chosen(pedigree, bits);
        const block = coancestryBlock(pedigree, fish, fish);
        meanKinship(pedigree, fish).forEach((value, k) => {
          const row = block.subarray(k * fish.length, (k + 1) * fish.length);
          expect(value).toBeCloseTo(row.reduce((sum, x) => sum + x, 0) / fish.length, tolerance);
        });
      }),
      { seed, numRuns: 300 },
    );
  });

  it('unknown parents by group equal written-out parents with those coancestries', () => {
    const within = fc.double({ min: 0, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(loopedPedigrees(14), within, within, (pedigree, first, second) => {
        const { size } = pedigree;
        const between = Math.min(first, second) / 2;
        const theta = [first, between, between, second];
        const sireGroup = Array.from({ length: size }, (_, i) => i % 2);
        const damGroup = Array.from({ length: size }, (_, i) => (i >> 1) % 2);
        const grouped = groupUnknownParents(pedigree, {
          sireGroup,
          damGroup,
          coancestry: theta,
          groups: 2,
        });
        const byGroup = inbreedingCoefficients(grouped.pedigree, { founders: grouped.founders });
        const written = writtenOut(pedigree, sireGroup, damGroup);
        const coancestries = written.groupOf.flatMap((g, i) =>
          written.groupOf.map((h, j) => (i === j ? 0.5 : theta[g * 2 + h]!)),
        );
        const phantoms = written.groupOf.map((_, i) => i);
        const explicit = inbreedingCoefficients(written.pedigree, {
          founders: { founders: phantoms, coancestry: coancestries },
        });
        for (let i = 0; i < size; i++) {
          expect(byGroup[i + 2]).toBeCloseTo(explicit[i + phantoms.length]!, tolerance);
        }
      }),
      { seed, numRuns: 500 },
    );
  });
});

const parentName = (i: number): string | null => (i < 0 ? null : `fish ${(i * 7919) % 10007}`);

/** Every unknown parent as a fish of its own, before all others. */
function writtenOut(pedigree: Pedigree, sireGroup: number[], damGroup: number[]) {
  const groupOf: number[] = [];
  const places = [...pedigree.sire.keys()].map((i) => {
    const place = (parent: number, group: number) =>
      parent < 0 ? { phantom: groupOf.push(group) - 1 } : { parent };
    return [
      place(pedigree.sire[i]!, sireGroup[i]!),
      place(pedigree.dam[i]!, damGroup[i]!),
    ] as const;
  });
  const shift = groupOf.length;
  const index = (place: { phantom: number } | { parent: number }) =>
    'phantom' in place ? place.phantom : place.parent + shift;
  const none = new Array<number>(shift).fill(-1);
  return {
    groupOf,
    pedigree: pedigreeFromArrays(
      Int32Array.from([...none, ...places.map(([sire]) => index(sire))]),
      Int32Array.from([...none, ...places.map(([, dam]) => index(dam))]),
    ),
  };
}

describe(`long-lived parents (seed ${seed})`, () => {
  it('level pass and trace agree where many parents stay on while few enter', () => {
    // A few pairs breed in each season from a stock of many seasons, so that rows are entered in place.
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), (draws) => {
        const next = (limit: number) => (draws.next().value as number) % limit;
        const size = 400;
        const sire = new Int32Array(size).fill(-1);
        const dam = new Int32Array(size).fill(-1);
        for (let i = 60; i < size; i++) {
          if (next(3) > 0 && i > 60) {
            sire[i] = sire[i - 1]!;
            dam[i] = dam[i - 1]!;
          } else {
            sire[i] = 2 * next(i >> 1);
            dam[i] = 2 * next((i - 1) >> 1) + 1;
          }
        }
        const pedigree = pedigreeFromArrays(sire, dam);
        const byLevel = tabularInbreeding(pedigree);
        const table = tabularRelationship(pedigree);
        tracedInbreeding(pedigree).forEach((f, i) => {
          expect(byLevel[i]).toBeCloseTo(f, tolerance);
          expect(f).toBeCloseTo(a(table, pedigree, i, i) - 1, tolerance);
        });
      }),
      { seed, numRuns: 60 },
    );
  });

  it('ancestors of a fish are those with a share in it', () => {
    fc.assert(
      fc.property(loopedPedigrees(40), fc.nat(), (pedigree, pick) => {
        const fish = pick % pedigree.size;
        const found = new Set(ancestors(pedigree, fish));
        const share = new Float64Array(pedigree.size);
        share[fish] = 1;
        for (let i = fish; i >= 0; i--) {
          for (const parent of [pedigree.sire[i]!, pedigree.dam[i]!]) {
            if (parent >= 0) share[parent]! += share[i]! / 2;
          }
        }
        share.forEach((value, i) => expect(found.has(i)).toBe(value > 0 && i !== fish));
      }),
      { seed, numRuns: 300 },
    );
  });
});
