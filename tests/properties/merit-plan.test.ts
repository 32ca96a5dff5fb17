import { inbreedingCoefficients } from '@linewright/kinship';
import { pedigreeFromArrays, seededChance, type Pedigree } from '@linewright/pedigree';
import {
  animalModel,
  breedingValues,
  broodInbreeding,
  Equations,
  inbreedingLoad,
  MeritError,
  narrowedBy,
  randomDozen,
  selectionOfScores,
  solveAt,
  valuesOverHeritability,
  worthScoring,
  type AnimalScores,
  type BroodOnRecord,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { Chance, tangledPedigree } from './simulated-line.js';

const seed = 20_261_130;

/** Ten founders and twenty broods of six, of parents before them. */
function line(chance: Chance): Pedigree {
  const sire = new Array<number>(10).fill(-1);
  const dam = [...sire];
  for (let brood = 0; brood < 20; brood++) {
    const [s, d] = [2 * chance.below(sire.length / 2), 1 + 2 * chance.below(sire.length / 2)];
    for (let k = 0; k < 6; k++) {
      sire.push(s);
      dam.push(d);
    }
  }
  return pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
}

function simulated(chance: Chance, pedigree: Pedigree, heritability: number): Float64Array {
  const { sire, dam, size } = pedigree;
  const inbreeding = inbreedingCoefficients(pedigree);
  const value = new Float64Array(size);
  return Float64Array.from({ length: size }, (_, i) => {
    const [s, d] = [sire[i]!, dam[i]!];
    value[i] =
      s < 0
        ? Math.sqrt(heritability) * chance.normal()
        : (value[s]! + value[d]!) / 2 +
          Math.sqrt(heritability * (0.5 - (inbreeding[s]! + inbreeding[d]!) / 4)) * chance.normal();
    return value[i]! + Math.sqrt(1 - heritability) * chance.normal();
  });
}

const scoresOf = (
  pedigree: Pedigree,
  fish: readonly number[],
  score: Float64Array,
): AnimalScores => ({
  pedigree,
  fish: Int32Array.from(fish),
  traits: [{ name: 'tail', values: Float64Array.from(fish, (i) => score[i]!) }],
});

describe(`what more scores would narrow, seed ${seed}`, () => {
  it('is on average what they then do narrow', () => {
    const chance = new Chance(seed);
    const [told, found] = [
      [0, 0],
      [0, 0],
    ];
    const now = [0, 0];
    for (let k = 0; k < 16; k++) {
      const pedigree = line(chance);
      const score = simulated(chance, pedigree, 0.4);
      const all = Array.from({ length: pedigree.size }, (_, i) => i);
      const first = all.filter((i) => i >= 10 && i % 3 === 0);
      const rest = all.filter((i) => i >= 10 && i % 3 !== 0);
      const scores = scoresOf(pedigree, first, score);
      const posterior = valuesOverHeritability(scores);
      const plan = narrowedBy(scores, posterior, { fish: rest });
      expect([plan.scoresNow, plan.scoresAdded]).toEqual([first.length, rest.length]);
      const after = valuesOverHeritability(scoresOf(pedigree, [...first, ...rest], score));
      const mean = (values: Float64Array) => values.reduce((sum, v) => sum + v, 0) / values.length;
      now[0]! += plan.heritability.now;
      now[1]! += plan.values.now;
      told[0]! += plan.heritability.then;
      found[0]! += after.heritability.standardDeviation;
      told[1]! += plan.values.then;
      found[1]! += mean(after.standardError);
    }
    // Measured 0.98 and 1.10: values come out a little narrower than told. A plan that promised nothing would stand at 1.40.
    expect(told[0]! / found[0]!).toBeGreaterThan(0.85);
    expect(told[0]! / found[0]!).toBeLessThan(1.15);
    expect(told[1]! / found[1]!).toBeGreaterThan(0.85);
    expect(told[1]! / found[1]!).toBeLessThan(1.2);
    expect(found[0]!).toBeLessThan(0.85 * now[0]!);
  });

  it('grows with every brood more, and is nothing for a plan of nothing', () => {
    const chance = new Chance(seed + 1);
    const pedigree = line(chance);
    const score = simulated(chance, pedigree, 0.3);
    const fish = Array.from({ length: 60 }, (_, k) => 10 + 2 * k);
    const scores: AnimalScores = {
      ...scoresOf(pedigree, fish, score),
      fixed: [
        {
          kind: 'classes',
          name: 'season',
          levels: ['dry', 'wet'],
          codes: Int32Array.from(fish, (_, k) => k % 2),
        },
        { kind: 'covariate', name: 'age', values: Float64Array.from(fish, (_, k) => k % 7) },
      ],
      shared: [
        {
          name: 'brood',
          levels: Array.from({ length: 20 }, (_, k) => `${k}`),
          codes: Int32Array.from(fish, (i) => Math.floor((i - 10) / 6)),
        },
      ],
    };
    const posterior = valuesOverHeritability(scores, { cells: 10, pointsOfOthers: 9 });
    const broods = [0, 1, 2, 3].map((k) => ({ sire: 20 + 2 * k, dam: 31 + 2 * k, scored: 12 }));
    const nothing = narrowedBy(scores, posterior, {});
    expect(nothing.heritability.then).toBeCloseTo(nothing.heritability.now, 12);
    expect(nothing.values.then).toBeCloseTo(nothing.values.now, 12);
    let before = nothing;
    for (let count = 1; count <= 4; count++) {
      const plan = narrowedBy(scores, posterior, { broods: broods.slice(0, count) });
      expect(plan.scoresAdded).toBe(12 * count);
      expect(plan.heritability.then).toBeLessThan(before.heritability.then);
      expect(plan.values.then).toBeLessThan(before.values.then);
      before = plan;
    }
    const refused = (plan: Parameters<typeof narrowedBy>[2]) => () =>
      narrowedBy(scores, posterior, plan);
    expect(refused({ fish: [999] })).toThrow('There is no fish 999');
    expect(refused({ broods: [{ sire: 0, dam: 1, scored: 1.5 }] })).toThrow('whole number');
    expect(refused({ broods: [{ sire: 0, dam: 1, scored: 1e6 }] })).toThrow('at most 100000');
  });
});

describe('which fish to score', () => {
  it('tells what is then exactly so, and not two fish that tell the same', () => {
    const chance = new Chance(seed + 2);
    const pedigree = tangledPedigree(40, 6, chance);
    const scored = Array.from({ length: 15 }, (_, k) => k);
    const score = Float64Array.from({ length: 40 }, () => chance.normal());
    const variances = { random: [[[0.4]]], residual: [[0.6]] };
    const solvedOf = (fish: readonly number[]) => {
      const animal = animalModel(scoresOf(pedigree, fish, score));
      return solveAt(animal, new Equations(animal.model), variances);
    };
    const matter = [30, 31, 32, 39];
    const meanVariance = (fish: readonly number[]) => {
      const [values] = breedingValues(solvedOf(fish));
      return matter.reduce((sum, i) => sum + values!.standardError[i]! ** 2, 0) / matter.length;
    };
    const candidates = Array.from({ length: 25 }, (_, k) => 15 + k);
    const chosen = worthScoring(
      solvedOf(scored),
      candidates.map((fish) => ({ fish })),
      4,
      matter,
    );
    expect(new Set(chosen.map(({ fish }) => fish)).size).toBe(4);
    const taken: number[] = [];
    for (const { fish, before, after } of chosen) {
      expect(before).toBeCloseTo(meanVariance([...scored, ...taken]), 10);
      // None of the others would have done better.
      for (const other of candidates.filter((i) => !taken.includes(i)))
        expect(after).toBeLessThanOrEqual(meanVariance([...scored, ...taken, other]) + 1e-10);
      taken.push(fish);
      expect(after).toBeCloseTo(meanVariance([...scored, ...taken]), 10);
    }
  });
});

describe('a random dozen', () => {
  it('gives each fish the same chance, each once, and the same dozen from the same chance', () => {
    const brood = Array.from({ length: 30 }, (_, k) => k);
    const chance = seededChance(seed);
    const times = new Array<number>(30).fill(0);
    for (let k = 0; k < 3000; k++) {
      const drawn = randomDozen(brood, chance);
      expect(new Set(drawn).size).toBe(12);
      for (const fish of drawn) times[fish]!++;
    }
    // 1,200 each, standard deviation 27.
    for (const count of times) expect(Math.abs(count - 1200)).toBeLessThan(5 * 27);
    expect(randomDozen(brood, seededChance(7))).toEqual(randomDozen(brood, seededChance(7)));
    expect(randomDozen(brood, seededChance(7))).not.toEqual(randomDozen(brood, seededChance(8)));
    expect(randomDozen([4, 5], chance).sort()).toEqual([4, 5]);
    expect(brood).toEqual(Array.from({ length: 30 }, (_, k) => k));
    expect(() => randomDozen(brood, chance, 0)).toThrow(MeritError);
  });
});

describe('how selected scores are', () => {
  const brood = (
    when: BroodOnRecord['scored'][number]['when'],
    scores: readonly number[],
    more: Partial<BroodOnRecord> = {},
  ): BroodOnRecord => ({
    counted: 40,
    culled: 0,
    culledForTrait: 0,
    scored: scores.map((score) => ({ score, when })),
    ...more,
  });
  const codes = (records: readonly BroodOnRecord[]) =>
    selectionOfScores('tail', records).notes.map(({ code }) => code);

  it('is told from when fish were scored, what was culled and what was counted', () => {
    const found = selectionOfScores('tail', [
      brood('after a cull', [8, 9], { culled: 30, culledForTrait: 20 }),
      brood('before any cull', [5, 6, 7]),
      brood('before any cull', []),
    ]);
    expect(found).toMatchObject({ scored: 5, beforeCull: 3, afterCull: 2, keepersOnlyBroods: 1 });
    expect(found.share).toBeCloseTo(5 / 80, 12);
    expect(found.broods).toHaveLength(2);
    // The better half of a large brood: Falconer & Mackay 1996, appendix table A, i = 0.798 (from memory).
    expect(found.broods[0]!.raisedByUpTo).toBeCloseTo(0.798, 3);
    expect(found.broods[0]!.meanAfterCull).toBe(8.5);
    expect(found.broods[1]).toMatchObject({
      raisedByUpTo: 0,
      meanBeforeCull: 6,
      keepersOnly: false,
    });
    expect(found.notes.map(({ code }) => code)).toEqual([
      'MERIT_KEEPERS_ONLY',
      'MERIT_CULLED_FOR_TRAIT',
      'MERIT_FEW_OF_BROOD',
    ]);
    expect(found.notes[1]!.message).toContain('0.8 standard deviations');
  });

  it('is nothing to speak of where all were scored before sorting', () => {
    const all = Array.from({ length: 40 }, (_, k) => k);
    expect(codes([brood('before any cull', all)])).toEqual([]);
    expect(codes([])).toEqual([]);
    expect(codes([brood('not known', all, { counted: null })])).toEqual([
      'MERIT_BROOD_NOT_COUNTED',
      'MERIT_WHEN_NOT_KNOWN',
    ]);
    const mixed = brood('before any cull', all.slice(0, 30));
    const later = { score: 3, when: 'after a cull' } as const;
    expect(codes([{ ...mixed, scored: [...mixed.scored, later] }])).toEqual([
      'MERIT_SCORED_AFTER_CULL',
    ]);
  });

  it('is refused for counts that cannot be', () => {
    expect(() => codes([brood('not known', [1, 2], { counted: 1 })])).toThrow('counted as 1');
    expect(() => codes([brood('not known', [1], { culledForTrait: 2 })])).toThrow('more than all');
    expect(() => codes([brood('not known', [1], { culled: 0.5 })])).toThrow('whole numbers');
  });
});

describe('inbreeding behind broods', () => {
  it('is that of young put into the pedigree; recent and old add up to it', () => {
    const chance = new Chance(seed + 3);
    const pedigree = tangledPedigree(60, 6, chance);
    const broods = Array.from({ length: 12 }, (_, k) => ({ sire: 20 + k, dam: 47 - k }));
    const { young, dam, recent, old } = broodInbreeding(pedigree, broods, 2);
    const known = inbreedingCoefficients(
      pedigreeFromArrays(
        Int32Array.from([...pedigree.sire, ...broods.map((brood) => brood.sire)]),
        Int32Array.from([...pedigree.dam, ...broods.map((brood) => brood.dam)]),
      ),
    );
    broods.forEach((brood, k) => {
      expect(young.values[k]).toBeCloseTo(known[60 + k]!, 12);
      expect(dam.values[k]).toBeCloseTo(known[brood.dam]!, 12);
      expect(recent.values[k]! + old.values[k]!).toBeCloseTo(young.values[k]!, 12);
    });
    expect(Math.max(...recent.values)).toBeGreaterThan(0);
    expect(Math.max(...old.values)).toBeGreaterThan(0);
    const counted = broods.map(() => 80);
    const survivors = broods.map((_, k) => Math.round(70 * Math.exp(-0.8 * young.values[k]!)));
    const { loads } = inbreedingLoad({ survivors, counted, inbreeding: [recent, old] });
    expect(loads.map(({ name }) => name)).toEqual([
      'F of the young, last 2 generations',
      'F of the young, older',
    ]);
    expect(broodInbreeding(pedigree, [{ sire: -1, dam: 4 }]).young.values).toEqual([0]);
    expect(() => broodInbreeding(pedigree, [{ sire: 60, dam: 4 }])).toThrow('no fish 60');
    expect(() => broodInbreeding(pedigree, [], 0)).toThrow('whole number');
  });
});
