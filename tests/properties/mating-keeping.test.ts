import { carrierModel, twoAlleleLocus, type CarrierEvidence } from '@linewright/heredity';
import { STARTING_PURPOSE, whomToKeep, type PairingCandidate } from '@linewright/mating';
import { buildPedigree, pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { Chance } from './simulated-line.js';

const locus = twoAlleleLocus({
  id: 'd',
  name: 'D',
  symbols: ['D', 'd'],
  looks: ['normal', 'affected'],
});

/** A small line of three generations with the truth of every fish: who is seen is recorded, the last generation and some others are alive. */
function lineDrawn(chance: Chance) {
  const [founders, born] = [5, 14];
  const size = founders + born;
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  const q = 0.1 + 0.2 * chance.next();
  const copies = new Uint8Array(size);
  const passed = (parent: number): number => Number(chance.next() < copies[parent]! / 2);
  for (let i = 0; i < size; i++) {
    if (i < founders) {
      copies[i] = Number(chance.next() < q) + Number(chance.next() < q);
      continue;
    }
    sire[i] = chance.below(i);
    do dam[i] = chance.below(i);
    while (dam[i] === sire[i]);
    copies[i] = passed(sire[i]!) + passed(dam[i]!);
  }
  const pedigree = pedigreeFromArrays(sire, dam);
  const evidence: CarrierEvidence[] = [];
  for (let i = 0; i < size; i++) {
    const fish = pedigree.ids[i]!;
    const told = chance.next();
    if (told < 0.25)
      evidence.push({
        ...{ kind: 'genotype', id: `g${i}`, fish },
        genotype: ['D/D', 'D/d', 'd/d'][copies[i]!]!,
      });
    else if (told < 0.8)
      evidence.push({
        ...{ kind: 'phenotype', id: `p${i}`, fish },
        phenotype: copies[i] === 2 ? 'affected' : 'normal',
      });
  }
  const alive = 2 + chance.below(5);
  const living = pedigree.ids.flatMap((_, i) => (i >= size - alive ? [i] : []));
  return { pedigree, q, copies, evidence, living };
}

describe('a stated chance to be the last carrier', () => {
  it('comes true as often as it says, on simulated lines (seed 20260301)', () => {
    const chance = new Chance(20260301);
    const bins = Array.from({ length: 5 }, () => ({ said: 0, came: 0, variance: 0, count: 0 }));
    for (let line = 0; line < 800; line++) {
      const { pedigree, q, copies, evidence, living } = lineDrawn(chance);
      const founders = { general: { alleles: { D: 1 - q, d: q } } };
      const model = carrierModel({ pedigree, locus, evidence, founders });
      const sole = model.soleCarriers(
        living.map((i) => pedigree.ids[i]!),
        'd',
      )!;
      const carriers = living.filter((i) => copies[i]! > 0);
      living.forEach((i, k) => {
        const said = sole[k]!;
        const bin = bins[Math.min(4, Math.floor(said * 5))]!;
        bin.said += said;
        bin.came += Number(carriers.length === 1 && carriers[0] === i);
        bin.variance += said * (1 - said);
        bin.count++;
      });
    }
    for (const { said, came, variance } of bins)
      expect(Math.abs(came - said)).toBeLessThanOrEqual(3.5 * Math.sqrt(variance) + 1e-6);
    // The check holds something in each part of the scale.
    expect(bins[0]!.came).toBeGreaterThan(20);
    expect(Math.min(...bins.map(({ count }) => count))).toBeGreaterThan(8);
  });
});

describe('advice on whom to keep', () => {
  const brood = Array.from({ length: 12 }, (_, k) => ({ id: `y${k}`, sire: 'A', dam: 'B' }));
  const pedigree = buildPedigree([...['A', 'B', 'K'].map((id) => ({ id })), ...brood]);
  const worth = {
    purpose: {
      ...STARTING_PURPOSE,
      traits: [
        { traitId: 't', better: 'lower' as const, low: null, high: null, worth: 1.5 },
        { traitId: 'u', better: 'higher' as const, low: null, high: null, worth: 1 },
      ],
    },
    traits: ['t', 'u'].map((traitId) => ({
      ...{ traitId, level: 50, additive: 40, commonBrood: 0, residual: 60 },
      line: { mean: 50, deviation: 10 },
    })),
    ...{ fry: 40, survival: 0.5, load: 0 },
  };
  const fish = (
    id: string,
    values: readonly [number, number],
    standardError: number,
  ): PairingCandidate => ({
    ...{ id, sex: 'male' as const },
    values: {
      t: { value: values[0], standardError },
      u: { value: values[1], standardError },
    },
  });
  const mates = [{ ...fish('K', [0, 0], 1), sex: 'female' as const }];
  const told = (young: readonly PairingCandidate[], males: number) =>
    whomToKeep({
      ...{ pedigree, worth, young, mates, alleles: [], toKeep: { males, females: 0 } },
    }).young;

  it('is in the order of points of the breeding values, whatever the order given (seed 20260302)', () => {
    const chance = new Chance(20260302);
    for (let round = 0; round < 60; round++) {
      const drawn = brood.map(({ id }) => ({
        id,
        values: [5 * chance.normal(), 5 * chance.normal()] as const,
      }));
      const points = new Map(drawn.map(({ id, values: [t, u] }) => [id, -1.5 * t + u]));
      const order = drawn.map(({ id }) => id).toSorted((a, b) => points.get(b)! - points.get(a)!);
      const young = drawn.map(({ id, values }) => fish(id, values, 0));
      const answer = told(young.toReversed(), 4);
      expect(answer.map(({ id }) => id)).toEqual(order);
      expect(answer.map(({ advice }) => advice)).toEqual(
        order.map((_, k) => (k < 4 ? 'keep' : 'others-first')),
      );
      // Half of the difference comes to the young.
      const [first, last] = [answer[0]!, answer.at(-1)!];
      expect(first.worth - last.worth).toBeCloseTo(
        (points.get(first.id)! - points.get(last.id)!) / 2,
        8,
      );
    }
  });

  it('tells apart only who really differs, but for a few in a hundred (seed 20260303)', () => {
    const chance = new Chance(20260303);
    let [apart, wrong, open] = [0, 0, 0];
    for (let round = 0; round < 400; round++) {
      // Estimates with an error of 2.5 each: the true value is the estimate and the error.
      const drawn = brood.map(({ id }) => ({
        id,
        values: [7 * chance.normal(), 7 * chance.normal()] as const,
      }));
      const truth = new Map(
        drawn.map(({ id, values: [t, u] }) => [
          id,
          -1.5 * (t + 2.5 * chance.normal()) + u + 2.5 * chance.normal(),
        ]),
      );
      const answer = told(
        drawn.map(({ id, values }) => fish(id, values, 2.5)),
        3,
      );
      const firstLeftOut = truth.get(answer[3]!.id)!;
      for (const { id, advice } of answer.slice(0, 3)) {
        if (advice === 'cannot-tell') open++;
        else {
          apart++;
          wrong += Number(truth.get(id)! < firstLeftOut);
        }
      }
    }
    expect(open).toBeGreaterThan(200);
    expect(apart).toBeGreaterThan(100);
    expect(wrong / apart).toBeLessThan(0.025);
  });
});
