import { seededChance } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { LinearMatrixBuilder } from './linear-matrix.js';
import { minimumDegreeOrder } from './minimum-degree.js';
import { NotPositiveDefinite, SparseCholesky } from './sparse-cholesky.js';
import { sparseInverse } from './sparse-inverse.js';
import { symbolicFactor } from './symbolic-factor.js';
import { graphOf } from './ordering.js';

/** Random sparse, made positive definite by its diagonal. */
function random(size: number, links: number, seed: number) {
  const next = seededChance(seed);
  const dense = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const builder = new LinearMatrixBuilder(size);
  const add = (i: number, j: number, v: number) => {
    builder.add(0, i, j, v);
    dense[i]![j]! += v;
    if (i !== j) dense[j]![i]! += v;
  };
  for (let k = 0; k < links; k++) {
    const i = Math.floor(next() * size);
    const j = Math.floor(next() * size);
    if (i === j) continue;
    const v = next() - 0.5;
    add(i, j, v);
    add(i, i, Math.abs(v));
    add(j, j, Math.abs(v));
  }
  for (let i = 0; i < size; i++) add(i, i, 0.1 + next());
  return { matrix: builder.build(1), dense };
}

function denseInverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let k = 0; k < n; k++) {
    const scale = work[k]![k]!;
    for (let j = 0; j < 2 * n; j++) work[k]![j]! /= scale;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const f = work[i]![k]!;
      for (let j = 0; j < 2 * n; j++) work[i]![j]! -= f * work[k]![j]!;
    }
  }
  return work.map((row) => row.slice(n));
}

describe.each([
  [1, 0, 1],
  [12, 20, 2],
  [60, 70, 3],
  [60, 400, 4],
  [200, 260, 5],
])('the factor of %i equations with %i links', (size, links, seed) => {
  const { matrix, dense } = random(size, links, seed);
  const values = matrix.combine([1]);
  const order = minimumDegreeOrder(graphOf(matrix))!;
  const symbolic = symbolicFactor(matrix, order);
  const factor = new SparseCholesky(symbolic, values);
  const inverse = denseInverse(dense);

  it('has an order that names every equation once', () => {
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: size }, (_, i) => i));
  });

  it('solves, and multiplies back', () => {
    const next = seededChance(seed + 99);
    const b = Float64Array.from({ length: size }, next);
    const x = factor.solve(b);
    x.forEach((value, i) => {
      const direct = inverse[i]!.reduce((sum, v, j) => sum + v * b[j]!, 0);
      expect(value).toBeCloseTo(direct, 9);
    });
    const back = new Float64Array(size);
    matrix.multiply(values, x, back);
    back.forEach((value, i) => expect(value).toBeCloseTo(b[i]!, 10));
  });

  it('gives the inverse at the places of the matrix, and its trace', () => {
    const z = sparseInverse(factor, matrix.row.length);
    for (let j = 0; j < size; j++)
      for (let k = matrix.start[j]!; k < matrix.start[j + 1]!; k++)
        expect(z[k]).toBeCloseTo(inverse[matrix.row[k]!]![j]!, 9);
    expect(matrix.trace(0, z)).toBeCloseTo(size, 8);
  });

  it('gives the determinant, by the product of pivots', () => {
    const work = dense.map((row) => [...row]);
    let log = 0;
    for (let k = 0; k < size; k++) {
      log += Math.log(work[k]![k]!);
      for (let i = k + 1; i < size; i++) {
        const f = work[i]![k]! / work[k]![k]!;
        for (let j = k; j < size; j++) work[i]![j]! -= f * work[k]![j]!;
      }
    }
    expect(factor.logDeterminant).toBeCloseTo(log, 9);
  });
});

describe('what cannot be factored', () => {
  it('names an equation that follows from others', () => {
    const builder = new LinearMatrixBuilder(2);
    for (const [i, j] of [
      [0, 0],
      [0, 1],
      [1, 1],
    ] as const)
      builder.add(0, i, j, 1);
    const matrix = builder.build(1);
    const symbolic = symbolicFactor(matrix, Int32Array.of(0, 1));
    expect(() => new SparseCholesky(symbolic, matrix.combine([1]))).toThrow(NotPositiveDefinite);
  });

  it('stops ordering when the factor grows beyond the limit', () => {
    expect(minimumDegreeOrder(graphOf(random(60, 400, 4).matrix), 50)).toBeNull();
  });
});
