/**
 * Printed relationship matrices, their factors and inverses.
 *
 * Sources, each read in the source: Mrode RA (2014) Linear Models for the Prediction of Animal Breeding Values, 3rd edition,
 * CABI: Table 2.1 with section 2.3, section 2.6, Example 4.1, chapter 13, Appendix B.1.1; Lynch M & Walsh B (1998) Genetics
 * and Analysis of Quantitative Traits, Sinauer, chapter 26, Example 8.
 */
import {
  coancestry,
  inbreedingCoefficients,
  multiplyRelationship,
  relationshipInverse,
  tabularRelationship,
  type SparseMatrix,
} from '@linewright/kinship';
import { describe, expect, it } from 'vitest';
import {
  explicitPedigree,
  inverseOf,
  lastPlace,
  relationshipAmong,
  type PedigreeRow,
} from './explicit-pedigree.js';

const table21 = explicitPedigree([
  [1, null, null],
  [2, null, null],
  [3, 1, 2],
  [4, 1, null],
  [5, 4, 3],
  [6, 5, 2],
]);

function dense({ size, rows, columns, values }: SparseMatrix): number[][] {
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  rows.forEach((row, k) => {
    matrix[row]![columns[k]!] = values[k]!;
  });
  return matrix;
}

function expectPrinted(
  actual: readonly (readonly number[])[],
  printed: readonly (readonly number[])[],
  decimals: number,
): void {
  printed.forEach((row, i) => {
    row.forEach((value, j) => {
      expect(Math.abs(actual[i]![j]! - value), `row ${i + 1}, column ${j + 1}`).toBeLessThanOrEqual(
        lastPlace(decimals),
      );
    });
  });
}

describe('Mrode, Table 2.1', () => {
  // T carries the flow of genes from ancestors; D the variance within families. A = T D T'.
  const t = [
    [1, 0, 0, 0, 0, 0],
    [0, 1, 0, 0, 0, 0],
    [0.5, 0.5, 1, 0, 0, 0],
    [0.5, 0, 0, 1, 0, 0],
    [0.5, 0.25, 0.5, 0.5, 1, 0],
    [0.25, 0.625, 0.25, 0.25, 0.5, 1],
  ];
  const d = [1, 1, 0.5, 0.75, 0.5, 0.469];

  it('gives the printed D by the pedigree’s F', () => {
    const inverse = dense(relationshipInverse(table21));
    // 1/D of animal 6 stands alone on the diagonal, as it has no young; the others follow from F.
    expect(Math.abs(1 / inverse[5]![5]! - 0.469)).toBeLessThanOrEqual(lastPlace(3));
    const f = inbreedingCoefficients(table21);
    const within = table21.ids.map((_, i) => {
      const parents = [table21.sire[i]!, table21.dam[i]!].map((p) => (p < 0 ? -1 : f[p]!));
      return 0.5 - (parents[0]! + parents[1]!) / 4;
    });
    expectPrinted([within], [d], 3);
  });

  it('gives A = T D T’ by the table and by products', () => {
    const exactD = [1, 1, 0.5, 0.75, 0.5, 15 / 32];
    const expected = t.map((row) =>
      t.map((other) => row.reduce((sum, value, k) => sum + value * exactD[k]! * other[k]!, 0)),
    );
    const ids = [1, 2, 3, 4, 5, 6];
    expect(relationshipAmong(table21, ids)).toEqual(expected);
    const unit = Float64Array.from({ length: 36 }, (_, k) => (k % 7 === 0 ? 1 : 0));
    expect([...multiplyRelationship(table21, unit, { vectors: 6 })]).toEqual(expected.flat());
  });

  it('gives F of animals 5 and 6 (that of 6 from memory)', () => {
    const f = inbreedingCoefficients(table21);
    expect(f[table21.indexOf('5')]).toBe(0.125);
    expect(f[table21.indexOf('6')]).toBe(0.125);
  });

  it('gives the traced sums of Appendix B.1.1 for animal 5', () => {
    // Shares of the ancestors in animal 5, by the recursion, from young to old.
    const index = (id: number) => table21.indexOf(String(id));
    const share = new Float64Array(6);
    share[index(5)] = 1;
    const variances = new Map([
      [5, 0.5],
      [4, 0.75],
      [3, 0.5],
      [2, 1],
      [1, 1],
    ]);
    let sum = 0;
    const sums = [5, 4, 3, 2, 1].map((id) => {
      const at = index(id);
      sum += share[at]! ** 2 * variances.get(id)!;
      for (const parent of [table21.sire[at]!, table21.dam[at]!]) {
        if (parent >= 0) share[parent]! += share[at]! / 2;
      }
      return sum;
    });
    expectPrinted([sums], [[0.5, 0.6875, 0.8125, 0.875, 1.125]], 4);
    expect([1, 2, 3, 4].map((id) => share[index(id)])).toEqual([0.5, 0.25, 0.5, 0.5]);
    expect(2 * coancestry(table21, index(5), index(5))).toBe(sums[4]);
  });

  it('gives the relationships among sires 1, 4 and 5 of section 2.6', () => {
    const printed = [
      [1, 0.5, 0.5],
      [0.5, 1, 0.625],
      [0.5, 0.625, 1.125],
    ];
    expect(relationshipAmong(table21, [1, 4, 5])).toEqual(printed);
  });
});

describe('Mrode, chapter 13: sires and maternal grandsires', () => {
  it('gives the first three printed rows of the inverse', () => {
    // Bull, sire, maternal grandsire; the dam between is written out, with an unknown dam of her own.
    const bulls: [number, number | null, number | null][] = [
      [1, null, null],
      [2, null, null],
      [3, 1, null],
      [4, 2, 1],
      [5, 3, 2],
      [6, 2, 3],
    ];
    const rows = bulls.flatMap(([bull, sire, grandsire]): PedigreeRow[] =>
      grandsire === null
        ? [[bull, sire, null]]
        : [
            [`dam of ${bull}`, grandsire, null],
            [bull, sire, `dam of ${bull}`],
          ],
    );
    const inverse = inverseOf(relationshipAmong(explicitPedigree(rows), [1, 2, 3, 4, 5, 6]));
    const printed = [
      [1.424, 0.182, -0.667, -0.364, 0, 0],
      [0.182, 1.818, 0.364, -0.727, -0.364, -0.727],
      [-0.667, 0.364, 1.788, 0, -0.727, -0.364],
    ];
    expectPrinted(inverse, printed, 3);
  });
});

describe('Mrode, Example 4.1: inverse of A', () => {
  const printed = [
    [2.5, 0.5, 0, -1, 0.5, -1, 0.5, -1],
    [0.5, 1.5, 0, -1, 0, 0, 0, 0],
    [0, 0, 1.83, 0.5, -0.67, 0, -1, 0],
    [-1, -1, 0.5, 2.5, 0, 0, -1, 0],
    [0.5, 0, -0.67, 0, 1.83, -1, 0, 0],
    [-1, 0, 0, 0, -1, 2, 0, 0],
    [0.5, 0, -1, -1, 0, 0, 2.5, -1],
    [-1, 0, 0, 0, 0, 0, -1, 2],
  ];
  const rows = (damOf5: number | null): PedigreeRow[] => [
    [1, null, null],
    [2, null, null],
    [3, null, null],
    [4, 1, 2],
    [5, 3, damOf5],
    [6, 1, 5],
    [7, 3, 4],
    [8, 1, 7],
  ];

  // The data table gives cow 5 the dam 2; the printed inverse was made without her. It is an erratum of the book.
  it('is as printed with the dam of cow 5 unknown', () => {
    expectPrinted(dense(relationshipInverse(explicitPedigree(rows(null)))), printed, 2);
  });

  it('is the inverse of A, and not as printed, with the pedigree of the data table', () => {
    const pedigree = explicitPedigree(rows(2));
    const inverse = dense(relationshipInverse(pedigree));
    const direct = inverseOf(relationshipAmong(pedigree, [1, 2, 3, 4, 5, 6, 7, 8]));
    inverse.forEach((row, i) =>
      row.forEach((value, j) => expect(value).toBeCloseTo(direct[i]![j]!, 12)),
    );
    expect(inverse[4]![4]).toBe(2.5);
    expect(Math.abs(inverse[4]![4]! - printed[4]![4]!)).toBeGreaterThan(0.5);
  });
});

describe('Lynch & Walsh, chapter 26, Example 8', () => {
  it('gives the printed A', () => {
    // Two slips of the page are left aside: its running text has 1 + 1/8 = 1.25, and a(5,2) = 1/2 against 1/4 in the text.
    const pedigree = explicitPedigree([
      [1, null, null],
      [2, null, null],
      [3, 1, null],
      [4, 1, 2],
      [5, 3, 4],
    ]);
    expect([...tabularRelationship(pedigree)]).toEqual(
      [
        [1, 0, 1 / 2, 1 / 2, 1 / 2],
        [0, 1, 0, 1 / 2, 1 / 4],
        [1 / 2, 0, 1, 1 / 4, 5 / 8],
        [1 / 2, 1 / 2, 1 / 4, 1, 5 / 8],
        [1 / 2, 1 / 4, 5 / 8, 5 / 8, 9 / 8],
      ].flat(),
    );
  });
});
