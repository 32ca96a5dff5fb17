import { describe, expect, it } from 'vitest';
import { kinshipParts, squareOf } from './kinship-parts.js';
import { mostOnDiagonal } from './most-on-diagonal.js';

const sumOf = (of: Float64Array): number => of.reduce((sum, each) => sum + each, 0);

describe('as much of a diagonal as leaves no negative direction', () => {
  it('is all of it where nothing stands beside it', () => {
    const taken = mostOnDiagonal(Float64Array.of(2, 0, 0, 0, 1, 0, 0, 0, 0.5), 3);
    expect(sumOf(taken)).toBeCloseTo(3.5, 2);
  });

  it('comes to 2 (1 - r) of two with r between them, and leaves no negative direction', () => {
    const taken = mostOnDiagonal(Float64Array.of(1, 0.4, 0.4, 1), 2);
    expect(sumOf(taken)).toBeGreaterThan(0.99 * 1.2);
    expect((1 - taken[0]!) * (1 - taken[1]!)).toBeGreaterThan(0.4 ** 2);
  });

  it('is the whole diagonal of a large matrix, of which a share may be taken', () => {
    const size = 200;
    const one = Float64Array.from({ length: size ** 2 }, (_, k) => (k % (size + 1) === 0 ? 3 : 1));
    expect(sumOf(mostOnDiagonal(one, size))).toBe(3 * size);
  });
});

describe('the parts of kinship', () => {
  // Parents x and y, two of their young (one kind: the mean of both parents), and an unrelated z.
  const K = [
    [0.5, 0, 0.25, 0.25, 0],
    [0, 0.5, 0.25, 0.25, 0],
    [0.25, 0.25, 0.5, 0.25, 0],
    [0.25, 0.25, 0.25, 0.5, 0],
    [0, 0, 0, 0, 0.5],
  ];
  const parts = kinshipParts(Float64Array.from(K.flat()), 5);

  it('hold something of their own also beside a family with both its parents', () => {
    // Parents and family together are flat in one direction, so that no one share of the whole diagonal can be taken.
    expect(parts.ownOfKind[parts.kindOf[4]!]).toBeCloseTo(0.5, 2);
  });

  it('add up to the whole', () => {
    const n = [2, 1, 1, 2, 3];
    const ofKind = new Float64Array(parts.ownOfKind.length);
    n.forEach((each, fish) => (ofKind[parts.kindOf[fish]!]! += each));
    const sum =
      n.reduce((total, each, fish) => total + parts.own[fish]! * each ** 2, 0) +
      ofKind.reduce((total, each, kind) => total + parts.ownOfKind[kind]! * each ** 2, 0) +
      parts.factors.reduce(
        (total, factor) =>
          total + factor.reduce((root, each, kind) => root + each * ofKind[kind]!, 0) ** 2,
        0,
      );
    expect(sum).toBeCloseTo(squareOf(parts, n), 6);
  });
});
