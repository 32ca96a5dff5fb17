import {
  ancestralInbreeding,
  inbreedingCoefficients,
  simulatedAncestralInbreeding,
} from '@linewright/kinship';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

// Ballou JD (1997) J Hered 88:169-178: f_a = [f_a(s) + (1 - f_a(s)) F(s) + f_a(d) + (1 - f_a(d)) F(d)] / 2. Basis: definition from
// memory, worked by hand for full-sib mating, whose F is 1/4, 3/8, 1/2, 19/32 in generations 1 to 4; no printed number.
describe('ancestral inbreeding under full-sib mating', () => {
  // Two founders, their two young (generation 0), then two of every generation.
  const parents = [-1, -1, 0, 0, 2, 2, 4, 4, 6, 6, 8, 8];
  const sibs = pedigreeFromArrays(
    Int32Array.from(parents),
    Int32Array.from(parents, (sire) => (sire < 0 ? -1 : sire + 1)),
  );
  const firstOf = (generation: number): number => 2 + 2 * generation;

  it('follows 1 - f_a = product of (1 - F) of the generations before', () => {
    const inbreeding = inbreedingCoefficients(sibs);
    const ancestral = ancestralInbreeding(sibs);
    expect([1, 2, 3, 4].map((t) => inbreeding[firstOf(t)])).toEqual([1 / 4, 3 / 8, 1 / 2, 19 / 32]);
    expect([1, 2, 3, 4].map((t) => ancestral[firstOf(t)])).toEqual([0, 1 / 4, 17 / 32, 49 / 64]);
  });

  it('is met by gene dropping where the formula is exact, and exceeds it where it only approximates', () => {
    const drops = simulatedAncestralInbreeding(sibs, [firstOf(2), firstOf(4)], {
      seed: 5,
      replicates: 20_000,
    });
    const [second, fourth] = drops as [(typeof drops)[0], (typeof drops)[0]];
    expect(Math.abs(second.value - 1 / 4)).toBeLessThan(4.5 * second.standardError);
    expect(fourth.value).toBeLessThan(49 / 64);
    expect(fourth.value).toBeGreaterThan(1 / 2);
  });
});
