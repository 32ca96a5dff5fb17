import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { coancestry } from './coancestry.js';
import { coancestryBlock } from './coancestry-block.js';
import { groupUnknownParents } from './founder-relationship.js';
import { GrowingKinship } from './growing-kinship.js';
import {
  inbreedingCoefficients,
  knownInbreeding,
  tabularInbreeding,
  tellInbreeding,
  tracedInbreeding,
} from './inbreeding.js';
import { relationshipInverse } from './relationship-inverse.js';
import { meanKinship, multiplyRelationship } from './relationship-product.js';
import { tabularRelationship } from './tabular-relationship.js';

/** Two founders, then one pair of full sibs a generation, each pair from the pair before. */
function sibLine(generations: number) {
  const size = 2 + 2 * generations;
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  for (let i = 2; i < size; i++) {
    sire[i] = (i & ~1) - 2;
    dam[i] = (i & ~1) - 1;
  }
  return pedigreeFromArrays(sire, dam);
}

describe('F that is told', () => {
  it('is taken as it is for coancestries, and not worked out once more', () => {
    const pedigree = sibLine(5);
    const told = inbreedingCoefficients(sibLine(5));
    tellInbreeding(pedigree, told);
    expect(knownInbreeding(pedigree, undefined)).toBe(told);
    const all = Array.from({ length: pedigree.size }, (_, i) => i);
    expect(coancestryBlock(pedigree, all, all)).toEqual(coancestryBlock(sibLine(5), all, all));
    expect(() => tellInbreeding(pedigree, new Float64Array(3))).toThrow(/F of 3 individuals/);
  });
});

describe('inbreeding of lopsided pedigrees', () => {
  it('200,000 generations of full sibs tend to 1 and stay there', () => {
    const f = inbreedingCoefficients(sibLine(200_000));
    expect(f[4]).toBe(0.25);
    expect(f.at(-1)).toBeCloseTo(1, 12);
    expect(Math.max(...f.subarray(1000, 2000))).toBeLessThanOrEqual(1 + 1e-12);
  });

  it('traces 2,000 generations like the level pass', () => {
    const line = sibLine(2000);
    const traced = tracedInbreeding(line);
    tabularInbreeding(line).forEach((f, i) => expect(traced[i]).toBeCloseTo(f, 12));
  });

  it('a spawn of 600 has one F', () => {
    const sire = new Int32Array(604).fill(2);
    const dam = new Int32Array(604).fill(3);
    sire.set([-1, -1, 0, 0]);
    dam.set([-1, -1, 1, 1]);
    const f = inbreedingCoefficients(pedigreeFromArrays(sire, dam));
    expect(new Set(f.subarray(4))).toEqual(new Set([0.25]));
  });

  it('one sire with 10,000 young, each of another dam, whose young mate as half sibs', () => {
    const young = 10_000;
    const sire = new Int32Array(1 + young + young + young / 2).fill(-1);
    const dam = new Int32Array(sire.length).fill(-1);
    for (let k = 0; k < young; k++) {
      sire[1 + young + k] = 0;
      dam[1 + young + k] = 1 + k;
    }
    for (let k = 0; k < young / 2; k++) {
      sire[1 + 2 * young + k] = 1 + young + 2 * k;
      dam[1 + 2 * young + k] = 2 + young + 2 * k;
    }
    const pedigree = pedigreeFromArrays(sire, dam);
    const f = inbreedingCoefficients(pedigree);
    expect(new Set(f.subarray(0, 1 + 2 * young))).toEqual(new Set([0]));
    expect(new Set(f.subarray(1 + 2 * young))).toEqual(new Set([1 / 8]));
  });

  it('unknown parents give 0', () => {
    const pedigree = pedigreeFromArrays(Int32Array.of(-1, -1, 0, 0), Int32Array.of(-1, -1, -1, 2));
    expect([...inbreedingCoefficients(pedigree)]).toEqual([0, 0, 0, 0.25]);
  });

  it('falls back to tracing when memory is short', () => {
    const line = sibLine(50);
    expect(inbreedingCoefficients(line, { memoryLimit: 0 })).toEqual(tracedInbreeding(line));
  });

  it('takes an empty pedigree', () => {
    const empty = pedigreeFromArrays(new Int32Array(0), new Int32Array(0));
    expect(inbreedingCoefficients(empty)).toHaveLength(0);
    expect(tabularRelationship(empty)).toHaveLength(0);
    expect(coancestryBlock(empty, [], [])).toHaveLength(0);
    expect(meanKinship(empty, [])).toHaveLength(0);
  });
});

describe('related founders', () => {
  const pair = pedigreeFromArrays(Int32Array.of(-1, -1, 0), Int32Array.of(-1, -1, 1));

  it('shop-bought full sibs give a young with F = 0.25', () => {
    const founders = { founders: [0, 1], coancestry: [0.5, 0.25, 0.25, 0.5] };
    expect([...inbreedingCoefficients(pair, { founders })]).toEqual([0, 0, 0.25]);
    expect(coancestry(pair, 0, 1, { founders })).toBe(0.25);
    expect(coancestry(pair, 0, 2, { founders })).toBe(0.375);
  });

  it('an inbred founder passes on less variety', () => {
    const founders = { founders: [0], coancestry: [0.75] };
    expect(inbreedingCoefficients(pair, { founders })[0]).toBe(0.5);
    expect(coancestry(pair, 0, 2, { founders })).toBe(0.375);
  });

  it('must be founders, once each, with a symmetric matrix', () => {
    const code = (founders: number[], matrix: number[]) => () =>
      inbreedingCoefficients(pair, { founders: { founders, coancestry: matrix } });
    expect(code([2], [0.5])).toThrow(expect.objectContaining({ code: 'KINSHIP_NOT_A_FOUNDER' }));
    expect(code([0, 1], [0.5, 0.1, 0.2, 0.5])).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
    expect(code([0, 0], [0.5, 0.5, 0.5, 0.5])).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
    expect(code([0, 1], [0.5])).toThrow(
      expect.objectContaining({ code: 'KINSHIP_LENGTH_MISMATCH' }),
    );
  });

  it('unknown parents of one group are related at its coancestry', () => {
    const grouped = groupUnknownParents(pair, {
      sireGroup: [0, 0, -1],
      damGroup: [0, 0, -1],
      coancestry: [0.1],
      groups: 1,
    });
    const options = { founders: grouped.founders };
    const f = inbreedingCoefficients(grouped.pedigree, options);
    expect(f[1]).toBeCloseTo(0.1, 12);
    expect(f[3]).toBeCloseTo(0.1, 12);
    expect(coancestry(grouped.pedigree, 1, 2, options)).toBeCloseTo(0.1, 12);
  });
});

describe('errors', () => {
  const line = sibLine(2);

  it('name indices that do not exist', () => {
    for (const call of [
      () => coancestry(line, 0, 99),
      () => coancestryBlock(line, [0], [-1]),
      () => meanKinship(line, [0.5]),
      () => new GrowingKinship(line).addSpawn(0, 99, 1),
    ]) {
      expect(call).toThrow(expect.objectContaining({ code: 'KINSHIP_BAD_INDEX' }));
    }
  });

  it('name lengths that do not fit and spawns of none', () => {
    expect(() => multiplyRelationship(line, [1])).toThrow(
      expect.objectContaining({ code: 'KINSHIP_LENGTH_MISMATCH' }),
    );
    expect(() => new GrowingKinship(line).addSpawn(0, 1, 0)).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
  });

  it('refuses the inverse for sibs that cannot differ', () => {
    expect(() => relationshipInverse(sibLine(300))).toThrow(
      expect.objectContaining({ code: 'KINSHIP_SINGULAR' }),
    );
  });
});

describe('GrowingKinship', () => {
  it('grows beyond its first room', () => {
    const stock = new GrowingKinship(sibLine(2));
    const { first, inbreeding } = stock.addSpawn(4, 5, 5000);
    expect(inbreeding).toBe(0.375);
    const next = stock.addSpawn(first, first + 4999, 5000);
    expect(next.inbreeding).toBe(0.5);
    expect(stock.size).toBe(10_006);
    expect(stock.inbreeding()).toEqual(inbreedingCoefficients(stock.pedigree()));
    expect(stock.inbreedingOf(10_005)).toBe(0.5);
  });
});
