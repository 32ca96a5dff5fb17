import { buildPedigree, pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { findLocus } from '../catalogue/catalogue.js';
import { defineLocus } from '../own-loci/define-locus.js';
import { carrierModel } from './carrier-model.js';
import type { CarrierEvidence } from './evidence.js';
import { seededChance } from '@linewright/pedigree';

const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;
const locus = findLocus('dt');
const founders = { general: { alleles: { Dt: 0.8, dt: 0.2 } } };
const family = buildPedigree([
  { id: 'f' },
  { id: 'm' },
  { id: 'x', sire: 'f', dam: 'm' },
  { id: 'y', sire: 'f', dam: 'm' },
  { id: 'apart' },
]);
const ask = (evidence: CarrierEvidence[], more: object = {}) =>
  carrierModel({ pedigree: family, locus, evidence, founders, ...more });

/** Four pairs a generation drawn from the one before, eight young a pair. */
function tangled(generations: number, pairs: number, seed: number) {
  const random = seededChance(seed);
  const sire: number[] = [];
  const dam: number[] = [];
  let row: number[] = [];
  for (let i = 0; i < 2 * pairs; i++) {
    row.push(sire.push(-1) - 1);
    dam.push(-1);
  }
  for (let g = 0; g < generations; g++) {
    const next: number[] = [];
    for (let p = 0; p < pairs; p++) {
      const a = row[Math.floor(random() * row.length)] ?? 0;
      let b = a;
      while (b === a) b = row[Math.floor(random() * row.length)] ?? 0;
      for (let k = 0; k < 3; k++) {
        next.push(sire.push(a) - 1);
        dam.push(b);
      }
    }
    row = next;
  }
  return pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
}

const lethal = defineLocus({
  id: 'y',
  name: 'Lethal yellow',
  alleles: [
    { id: 'Y', symbol: 'Y', name: 'yellow' },
    { id: 'y', symbol: 'y', name: 'plain' },
  ],
  phenotypes: [
    { id: 'yellow', name: 'yellow' },
    { id: 'plain', name: 'plain' },
  ],
  expression: [
    { genotype: 'Y/-', shows: [{ phenotype: 'yellow', probability: '1' }] },
    { genotype: '-/-', shows: [{ phenotype: 'plain', probability: '1' }] },
  ],
  viability: [{ genotype: 'Y/Y', survival: '0', why: 'two doses are lethal' }],
});

describe('a lethal genotype', () => {
  const general = { alleles: { Y: 0.4, y: 0.6 } };
  it('is no more in a founder on record than in a young fish', () => {
    const of = (fish: string) =>
      ask([], { locus: lethal, founders: { general } })
        .posterior(fish)
        .genotypes.map((one) => one.probability);
    expect(of('apart')[0]).toBe(0);
    // 0.48 and 0.36 of the 0.84 that live.
    expect(of('apart')[1]).toBeCloseTo(4 / 7, 12);
    const seen: CarrierEvidence = { kind: 'phenotype', id: '1', fish: 'f', phenotype: 'yellow' };
    const model = ask([seen], { locus: lethal, founders: { general } });
    expect(model.posterior('f').genotypes[1]?.probability).toBeCloseTo(1, 12);
  });
  it('parents that have no living young cannot have had a brood, mis-scored or not', () => {
    const barren = {
      ...lethal,
      viability: [{ genotype: 'Y/y', survival: '0', why: 'hybrids die' }],
    };
    const brood: CarrierEvidence = {
      kind: 'brood',
      id: '1',
      sire: 'f',
      dam: 'apart',
      counts: { yellow: 3, plain: 1 },
      misScoring: 0.05,
    };
    const model = ask([brood], { locus: barren, founders: { general } });
    for (const { sire, dam } of model.joint('f', 'apart')) expect(sire).toEqual(dam);
    const parents = [
      { kind: 'genotype', id: '2', fish: 'f', genotype: 'Y/Y' },
      { kind: 'genotype', id: '3', fish: 'apart', genotype: 'y/y' },
    ] as const;
    expect(() => ask([brood, ...parents], { locus: barren, founders: { general } })).toThrowError(
      code('EVIDENCE_IMPOSSIBLE'),
    );
  });
});

describe('a record added', () => {
  const first: CarrierEvidence = { kind: 'phenotype', id: '1', fish: 'x', phenotype: 'double' };
  it.each<CarrierEvidence>([
    { kind: 'phenotype', id: '2', fish: 'y', phenotype: 'single', misScoring: 0.02 },
    { kind: 'genotype', id: '2', fish: 'apart', genotype: 'Dt/-' },
    { kind: 'brood', id: '2', sire: 'f', dam: 'm', counts: { single: 6, double: 1 } },
    { kind: 'brood', id: '2', sire: 'x', dam: 'apart', counts: { single: 6, double: 1 } },
    { kind: 'brood', id: '2', sire: 'y', dam: 'apart', counts: { single: 6, double: 1 } },
    { kind: 'test-mating', id: '2', fish: 'y', partner: 'dt/dt', counts: { single: 4 } },
  ])('gives what building anew gives: %o', (record) => {
    const before = ask([first]);
    // Two fish that have no young together share no table; of x only one genotype is left, which needs none.
    const strangers = record.kind === 'brood' && record.sire === 'y';
    expect(before.takesInQuickly(record)).toBe(!strangers);
    const added = before.withRecord(record);
    const anew = ask([first, record]);
    Array.from(anew.all()).forEach((p, i) => expect(added.all()[i]).toBeCloseTo(p, 12));
    expect(added.logLikelihood).toBeCloseTo(anew.logLikelihood ?? NaN, 9);
  });
  it.each([0, 0.03])('and taken out again leaves what was before, mis-scoring %d', (misScoring) => {
    const second: CarrierEvidence = { kind: 'brood', id: '2', sire: 'f', dam: 'm', counts: { single: 5, double: 2 }, misScoring }; // prettier-ignore
    const third: CarrierEvidence = { ...first, id: '3', fish: 'apart', misScoring };
    const whole = ask([first, second, third]);
    // Without mis-scoring the records excluded genotypes: then it is built anew.
    expect(whole.takesOutQuickly('2')).toBe(misScoring > 0);
    for (const [id, rest] of [
      ['2', [first, third]],
      ['3', [first, second]],
    ] as const) {
      const without = whole.withoutRecord(id);
      const anew = ask([...rest]);
      Array.from(anew.all()).forEach((p, i) => expect(without.all()[i]).toBeCloseTo(p, 12));
      expect(without.logLikelihood).toBeCloseTo(anew.logLikelihood ?? NaN, 9);
      const back = without.withRecord(id === '2' ? second : third);
      Array.from(whole.all()).forEach((p, i) => expect(back.all()[i]).toBeCloseTo(p, 12));
    }
    expect(() => whole.withoutRecord('no such')).toThrowError(code('ARGUMENT_INVALID'));
  });
  it('about a fish that was left out is not lost', () => {
    const few = carrierModel({ pedigree: family, locus, evidence: [], founders }, { fish: ['f'] });
    expect(few.takesInQuickly(first)).toBe(false);
    const added = few.withRecord(first);
    expect(added.posterior('f').genotypes[0]?.probability).toBeCloseTo(0, 12);
  });
});

describe('carrierModel', () => {
  it('a brood of 96 with 23 double tails makes both parents certain carriers, without a record for any fry', () => {
    const model = ask([
      { kind: 'phenotype', id: 'a', fish: 'f', phenotype: 'single' },
      { kind: 'phenotype', id: 'b', fish: 'm', phenotype: 'single' },
      { kind: 'brood', id: 'c', sire: 'f', dam: 'm', counts: { single: 73, double: 23 } },
    ]);
    expect(model.carries('f', 'double')).toBe(1);
    expect(model.posterior('f').genotypes.find((one) => one.text === 'Dt/dt')?.probability).toBe(1);
    expect(model.carries('x', 'double')).toBeCloseTo(3 / 4, 12);
    // Nothing was seen of this one: it keeps the proportions of its line.
    expect(model.carries('apart', 'double')).toBeCloseTo(1 - 0.64, 12);
  });
  it('large broods do not underflow', () => {
    const model = ask([
      { kind: 'brood', id: 'c', sire: 'f', dam: 'm', counts: { single: 30_000, double: 10_000 } },
      { kind: 'brood', id: 'd', sire: 'f', dam: 'x', counts: { single: 20_000, double: 20_000 } },
    ]);
    expect(model.posterior('x').genotypes.map((one) => one.probability)).toEqual([0, 0, 1]);
    expect(Number.isFinite(model.logLikelihood)).toBe(true);
  });
  it('frequencies by line, and a belief about one fish', () => {
    const byFish = { m: { genotypes: 'dt/dt' }, apart: { alleles: { Dt: 0, dt: 1 } } };
    const model = ask([], { founders: { ...founders, byFish } });
    expect(model.carries('x', 'double')).toBe(1);
    expect(model.posterior('apart').genotypes[2]?.probability).toBe(1);
  });
  it('handles three alleles', () => {
    const three = defineLocus({
      id: 't',
      name: 'Three',
      alleles: ['P', 'Q', 'R'].map((id) => ({ id, symbol: id, name: id })),
      phenotypes: ['p', 'q', 'r'].map((id) => ({ id, name: id })),
      expression: [['P/-', 'p'], ['Q/-', 'q'], ['R/R', 'r']].map(([genotype = '', phenotype = '']) => ({ genotype, shows: [{ phenotype, probability: '1' }] })), // prettier-ignore
    });
    const model = carrierModel({
      pedigree: family,
      locus: three,
      founders: { general: { alleles: { P: '1/3', Q: '1/3', R: '1/3' } } },
      evidence: [
        { kind: 'phenotype', id: 'a', fish: 'f', phenotype: 'p' },
        { kind: 'phenotype', id: 'b', fish: 'm', phenotype: 'q' },
        { kind: 'phenotype', id: 'c', fish: 'x', phenotype: 'r' },
      ],
    });
    // The young with r has R from each parent, so they are P/R and Q/R.
    expect(model.posterior('f').genotypes.find((one) => one.text === 'P/R')?.probability).toBe(1);
    expect(model.posterior('y').genotypes.filter((one) => one.probability > 0).map((one) => [one.text, one.probability])).toEqual([['P/Q', 0.25], ['P/R', 0.25], ['Q/R', 0.25], ['R/R', 0.25]]); // prettier-ignore
  });
  it('asking about some fish leaves the rest out, with the same answer', () => {
    const evidence: CarrierEvidence[] = [
      { kind: 'phenotype', id: 'a', fish: 'x', phenotype: 'double' },
    ];
    const all = ask(evidence);
    const some = carrierModel({ pedigree: family, locus, evidence, founders }, { fish: ['f'] });
    expect(some.carries('f', 'double')).toBeCloseTo(all.carries('f', 'double'), 12);
    expect(() => some.posterior('apart')).toThrowError(code('FISH_UNKNOWN'));
    expect(Number.isNaN(some.all()[family.indexOf('apart') * 3])).toBe(true);
  });
});

describe('a tangled pedigree of 124 fish', () => {
  const pedigree = tangled(9, 4, 5);
  const evidence: CarrierEvidence[] = pedigree.ids
    .filter((_, i) => i % 5 === 0)
    .map((fish, i) => ({
      kind: 'phenotype',
      id: fish,
      fish,
      phenotype: i % 6 === 0 ? 'double' : 'single',
      misScoring: 0.02,
    }));
  const input = { pedigree, locus, evidence, founders };
  const exact = carrierModel(input);
  it('is solved exactly, and the sampler agrees within its errors', () => {
    expect(exact.method.kind).toBe('exact');
    const pairs = [{ sire: pedigree.ids[100] ?? '', dam: pedigree.ids[110] ?? '' }];
    const sampled = carrierModel(input, { method: 'sampled', sweeps: 3000, seed: 3, pairs });
    expect(sampled.method.note).toContain('standard error');
    let far = 0;
    for (const fish of pedigree.ids) {
      const truth = exact.posterior(fish).genotypes;
      sampled.posterior(fish).genotypes.forEach((one, g) => {
        const error = one.standardError ?? 0;
        expect(Math.abs(one.probability - (truth[g]?.probability ?? 0))).toBeLessThan(0.06);
        if (Math.abs(one.probability - (truth[g]?.probability ?? 0)) > 4 * error) far++;
      });
    }
    expect(far).toBeLessThanOrEqual(4);
    const joint = exact.joint(pairs[0]?.sire ?? '', pairs[0]?.dam ?? '');
    expect(joint.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(1, 12);
    for (const one of sampled.joint(pairs[0]?.sire ?? '', pairs[0]?.dam ?? '')) {
      const same = joint.find(
        (other) => other.sire.join() === one.sire.join() && other.dam.join() === one.dam.join(),
      );
      expect(Math.abs(one.probability - (same?.probability ?? 0))).toBeLessThan(0.05);
    }
    expect(() => sampled.joint(pedigree.ids[1] ?? '', pedigree.ids[2] ?? '')).toThrowError(
      code('ARGUMENT_INVALID'),
    );
  });
  it('the same seed gives the same sample', () => {
    const once = carrierModel(input, { method: 'sampled', sweeps: 50, seed: 9 }).all();
    expect(carrierModel(input, { method: 'sampled', sweeps: 50, seed: 9 }).all()).toEqual(once);
  });
  it('falls back to sampling, or says it is too dense, when tables may not be large', () => {
    expect(carrierModel(input, { exactLimit: 30, sweeps: 20 }).method.kind).toBe('sampled');
    expect(() => carrierModel(input, { exactLimit: 30, method: 'exact' })).toThrowError(
      code('TOO_DENSE'),
    );
  });
  it('reports progress and can be stopped', () => {
    const steps: number[] = [];
    carrierModel(input, { onProgress: (done) => steps.push(done) });
    expect(steps.length).toBeGreaterThan(0);
    expect(() => carrierModel(input, { signal: { aborted: true } })).toThrowError(
      code('CANCELLED'),
    );
    expect(() =>
      carrierModel(input, { signal: { aborted: true }, method: 'sampled' }),
    ).toThrowError(code('CANCELLED'));
  });
});

describe('bad input', () => {
  const seen = (phenotype: string, misScoring = 0): CarrierEvidence => ({
    kind: 'phenotype',
    id: 'r',
    fish: 'x',
    phenotype,
    misScoring,
  });
  const brood = (counts: Record<string, number>): CarrierEvidence => ({
    kind: 'brood',
    id: 'r',
    sire: 'f',
    dam: 'm',
    counts,
  });
  it.each<[string, () => unknown]>([
    ['FISH_UNKNOWN', () => ask([{ kind: 'genotype', id: 'r', fish: 'nobody', genotype: 'Dt/dt' }])],
    [
      'FISH_UNKNOWN',
      () => carrierModel({ pedigree: family, locus, evidence: [], founders }, { fish: ['nobody'] }),
    ],
    ['FISH_UNKNOWN', () => ask([]).posterior('nobody')],
    ['PHENOTYPE_UNKNOWN', () => ask([seen('triple')])],
    ['PROBABILITY_OUT_OF_RANGE', () => ask([seen('single', 2)])],
    ['GENOTYPE_INVALID', () => ask([{ kind: 'genotype', id: 'r', fish: 'x', genotype: 'Dt' }])],
    ['COUNT_NEGATIVE', () => ask([brood({ single: -1 })])],
    ['COUNT_NOT_WHOLE', () => ask([brood({ single: 1.5 })])],
    ['PHENOTYPE_UNKNOWN', () => ask([brood({ triple: 3 })])],
    [
      'ARGUMENT_INVALID',
      () => ask([{ kind: 'brood', id: 'r', sire: 'f', dam: 'f', counts: { single: 3 } }]),
    ],
    [
      'PROBABILITIES_NOT_ONE',
      () => ask([], { founders: { general: { alleles: { Dt: 0.8, dt: 0.1 } } } }),
    ],
    ['ALLELE_UNKNOWN', () => ask([], { founders: { general: { alleles: { Xx: 1 } } } })],
    ['ALLELE_UNKNOWN', () => ask([]).carries('x', 'triple')],
    ['LOCUS_NOT_COMPUTABLE', () => ask([], { locus: findLocus('ct') })],
    [
      'EVIDENCE_IMPOSSIBLE',
      () => ask([{ kind: 'genotype', id: 'a', fish: 'f', genotype: 'Dt/Dt' }, seen('double')]),
    ],
  ])('%s', (expected, run) => {
    expect(run).toThrowError(code(expected));
  });
});
