import {
  carrierModel,
  defineLocus,
  HeredityError,
  type CarrierEvidence,
} from '@linewright/heredity';
import { pedigreeFromArrays } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/**
 * Loci as odd as a person may define: three alleles, penetrance from 0 to 1, lethal and weak genotypes (heterozygotes too),
 * mis-scoring, founders of two lines. Everything is worked out anew here from whole numbers, apart from the library.
 */
const PAIRS = [
  [0, 0],
  [0, 1],
  [0, 2],
  [1, 1],
  [1, 2],
  [2, 2],
] as const;
const LOOKS = ['plain', 'marked', 'never'] as const;

interface Drawn {
  readonly parents: readonly (readonly [number, number])[];
  /** By genotype: tenths that show `plain`, the rest `marked`. */
  readonly plain: readonly number[];
  /** By genotype: quarters that live. */
  readonly lives: readonly number[];
  readonly general: readonly number[];
  readonly other: readonly number[];
  readonly looks: readonly number[];
  readonly broods: readonly (readonly [number, number, number, number])[];
  readonly misScoring: number;
}

const MOST = 5;
const frequencies = fc
  .tuple(
    fc.integer({ min: 0, max: 5 }),
    fc.integer({ min: 0, max: 5 }),
    fc.integer({ min: 1, max: 5 }),
  )
  .map((parts) => parts.map((part) => part / parts.reduce((a, b) => a + b, 0)));
const drawn: fc.Arbitrary<Drawn> = fc.record({
  parents: fc.array(
    fc.tuple(fc.integer({ min: -3, max: MOST }), fc.integer({ min: -3, max: MOST })),
    { minLength: 3, maxLength: MOST },
  ),
  plain: fc.array(fc.constantFrom(0, 0, 3, 10, 10), { minLength: 6, maxLength: 6 }),
  lives: fc.array(fc.constantFrom(0, 1, 4, 4, 4), { minLength: 6, maxLength: 6 }),
  general: frequencies,
  other: frequencies,
  looks: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: MOST, maxLength: MOST }),
  broods: fc.array(fc.tuple(fc.nat(MOST - 1), fc.nat(MOST - 1), fc.nat(5), fc.nat(3)), {
    maxLength: 3,
  }),
  misScoring: fc.constantFrom(0, 0, 0.04),
});

const locusOf = (input: Drawn) =>
  defineLocus({
    id: 'odd',
    name: 'Odd',
    alleles: ['A', 'B', 'C'].map((id) => ({ id, symbol: id, name: id })),
    phenotypes: LOOKS.map((id) => ({ id, name: id })),
    expression: PAIRS.map(([a, b], g) => ({
      genotype: `${'ABC'[a]}/${'ABC'[b]}`,
      shows: [
        { phenotype: 'plain', probability: `${input.plain[g]}/10` },
        { phenotype: 'marked', probability: `${10 - input.plain[g]!}/10` },
      ],
    })),
    viability: PAIRS.map(([a, b], g) => ({
      genotype: `${'ABC'[a]}/${'ABC'[b]}`,
      survival: `${input.lives[g]}/4`,
      why: 'drawn',
    })),
  });

const normal = (row: readonly number[]): number[] | null => {
  const sum = row.reduce((a, b) => a + b, 0);
  return sum > 0 ? row.map((x) => x / sum) : null;
};
/** Genotypes of those that live among what two sources of gametes make; null when none does. */
const joined = (a: readonly number[], b: readonly number[], lives: readonly number[]) =>
  normal(
    PAIRS.map(([x, y], g) => (x === y ? a[x]! * b[x]! : a[x]! * b[y]! + a[y]! * b[x]!) * lives[g]!),
  );
const gametes = (g: number): number[] =>
  [0, 1, 2].map((allele) => PAIRS[g]!.filter((one) => one === allele).length / 2);

interface Case {
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  readonly ofOther: readonly number[];
  readonly broods: readonly { s: number; d: number; plain: number; marked: number }[];
}

const caseOf = (input: Drawn): Case => {
  const n = input.parents.length;
  const sire = new Int32Array(n).fill(-1);
  const dam = new Int32Array(n).fill(-1);
  input.parents.forEach(([s, d], i) => {
    if (i === 0) return;
    sire[i] = s < 0 ? -1 : s % i;
    dam[i] = d < 0 ? -1 : d % i;
    if (sire[i]! >= 0 && sire[i] === dam[i]) dam[i] = -1;
  });
  const founders = [...sire.keys()].filter((i) => sire[i]! < 0 && dam[i]! < 0);
  return {
    sire,
    dam,
    ofOther: founders.filter((_, k) => k % 2 === 1),
    broods: input.broods
      .map(([s, d, plain, marked]) => ({ s: s % n, d: d % n, plain, marked }))
      .filter((one) => one.s !== one.d),
  };
};

/** Goes through all 6^n assignments. */
const bruteForce = (input: Drawn, { sire, dam, ofOther, broods }: Case) => {
  const n = sire.length;
  const { lives, misScoring: e } = input;
  const scored = (chance: number) => (1 - e) * chance + (e * (1 - chance)) / 2;
  const shows = (g: number) => [input.plain[g]! / 10, 1 - input.plain[g]! / 10];
  const general = joined(input.general, input.general, lives);
  const other = joined(input.other, input.other, lives);
  const posterior = Array.from({ length: n }, () => PAIRS.map(() => 0));
  let likelihood = 0;
  const state: number[] = [];
  const chanceOf = (i: number, g: number): number => {
    const [s, d] = [sire[i]!, dam[i]!];
    if (s < 0 && d < 0) return (ofOther.includes(i) ? other : general)?.[g] ?? 0;
    if (s >= 0 && d >= 0) return joined(gametes(state[s]!), gametes(state[d]!), lives)?.[g] ?? 0;
    const known = gametes(state[Math.max(s, d)]!);
    return (general ?? []).reduce(
      (sum, p, mate) => sum + p * (joined(known, gametes(mate), lives)?.[g] ?? 0),
      0,
    );
  };
  const visit = (i: number, weight: number): void => {
    if (weight === 0) return;
    if (i === n) {
      let w = weight;
      for (const { s, d, plain, marked } of broods) {
        const young = joined(gametes(state[s]!), gametes(state[d]!), lives);
        if (plain + marked > 0 && young === null) return;
        const share = (young ?? []).reduce((sum, p, g) => sum + p * shows(g)[0]!, 0);
        w *= scored(share) ** plain * scored(1 - share) ** marked;
      }
      likelihood += w;
      state.forEach((g, fish) => (posterior[fish]![g]! += w));
      return;
    }
    for (let g = 0; g < 6; g++) {
      state[i] = g;
      const look = input.looks[i]!;
      visit(i + 1, weight * chanceOf(i, g) * (look === 0 ? 1 : scored(shows(g)[look - 1]!)));
    }
    state.length = i;
  };
  visit(0, 1);
  return { likelihood, posterior: posterior.flat().map((w) => w / likelihood) };
};

const evidenceOf = (input: Drawn, { broods, sire }: Case, ids: readonly string[]) => {
  const misScoring = input.misScoring;
  const looks = [...sire.keys()].flatMap((i): CarrierEvidence[] => {
    const phenotype = input.looks[i] === 0 ? undefined : LOOKS[input.looks[i]! - 1];
    return phenotype === undefined
      ? []
      : [{ kind: 'phenotype', id: `p${i}`, fish: ids[i]!, phenotype, misScoring }];
  });
  return [
    ...looks,
    ...broods.map(({ s, d, plain, marked }, i): CarrierEvidence => ({
      kind: 'brood',
      id: `b${i}`,
      sire: ids[s]!,
      dam: ids[d]!,
      counts: { plain, marked, never: 0 },
      misScoring,
    })),
  ];
};

const letters = (row: readonly number[]) =>
  Object.fromEntries(row.map((frequency, i) => ['ABC'[i]!, frequency]));

describe('carrier probabilities at odd loci', () => {
  it('equal those of going through every assignment (seed 20260121)', () => {
    let possible = 0;
    let impossible = 0;
    fc.assert(
      fc.property(drawn, (input) => {
        const one = caseOf(input);
        const pedigree = pedigreeFromArrays(one.sire, one.dam);
        const { ids } = pedigree;
        const truth = bruteForce(input, one);
        const ask = () =>
          carrierModel({
            pedigree,
            locus: locusOf(input),
            evidence: evidenceOf(input, one, ids),
            founders: {
              general: { alleles: letters(input.general) },
              byFish: Object.fromEntries(
                one.ofOther.map((i) => [ids[i]!, { alleles: letters(input.other) }]),
              ),
            },
          });
        if (truth.likelihood === 0) {
          impossible++;
          expect(ask).toThrowError(HeredityError);
          return;
        }
        possible++;
        const model = ask();
        const all = model.all();
        truth.posterior.forEach((p, i) => expect(all[i]).toBeCloseTo(p, 9));
        expect(model.logLikelihood).toBeCloseTo(Math.log(truth.likelihood), 7);
      }),
      { seed: 20260121, numRuns: 400 },
    );
    expect(possible).toBeGreaterThan(150);
    expect(impossible).toBeGreaterThan(20);
  });

  it('records put in and taken out one by one leave what building anew gives (seed 20260122)', () => {
    let quick = 0;
    fc.assert(
      fc.property(drawn, fc.array(fc.nat(9), { maxLength: 6 }), (input, changes) => {
        const one = caseOf(input);
        const pedigree = pedigreeFromArrays(one.sire, one.dam);
        const evidence = evidenceOf(input, one, pedigree.ids);
        const base = {
          pedigree,
          locus: locusOf(input),
          founders: { general: { alleles: letters(input.general) } },
        };
        if (evidence.length === 0 || bruteForce(input, { ...one, ofOther: [] }).likelihood === 0)
          return;
        let records = evidence;
        let model = carrierModel({ ...base, evidence });
        for (const change of changes) {
          const record = evidence[change % evidence.length]!;
          const isIn = records.some(({ id }) => id === record.id);
          if (isIn ? model.takesOutQuickly(record.id) : model.takesInQuickly(record)) quick++;
          model = isIn ? model.withoutRecord(record.id) : model.withRecord(record);
          records = isIn ? records.filter(({ id }) => id !== record.id) : [...records, record];
        }
        const anew = carrierModel({ ...base, evidence: records });
        const all = model.all();
        Array.from(anew.all()).forEach((p, i) => expect(all[i]).toBeCloseTo(p, 9));
        expect(model.logLikelihood).toBeCloseTo(anew.logLikelihood!, 7);
      }),
      { seed: 20260122, numRuns: 300 },
    );
    expect(quick).toBeGreaterThan(200);
  });
});
