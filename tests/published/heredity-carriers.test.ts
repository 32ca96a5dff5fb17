/**
 * Carrier probabilities against standard examples of genetic counselling.
 *
 * - Unaffected sib of an affected child of two carriers: 2/3 (read in the source).
 * - Mercer University, cystic fibrosis case: both parents detected by a 70 % test 0.49, by an 85 % test 0.7225 (read in the
 *   source).
 * - Sib of a patient and an unrelated partner, carriers 1 in 25: 1/150 (e.g. Young ID, Introduction to Risk Calculation in
 *   Genetic Counselling), n unaffected offspring of a sib and a known carrier, test matings from a prior of 1/2, a negative
 *   test of 90 % detection (Ogino S, Wilson RB 2004, J Mol Diagn 6:1-9, type of calculation), first cousins with P(aa) =
 *   q²(1 - F) + qF, and the cousin of an affected's sib, 1/24: from memory, confirmed by independent computation.
 */
import {
  carrierModel,
  crossMixture,
  defineLocus,
  twoAlleleLocus,
  type CarrierEvidence,
  type FounderBeliefs,
} from '@linewright/heredity';
import { buildPedigree, type ParentageRecord } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

const locus = twoAlleleLocus({
  id: 'd',
  name: 'D',
  symbols: ['D', 'd'],
  looks: ['normal', 'affected'],
});
const rare = (q: number): FounderBeliefs => ({ general: { alleles: { D: 1 - q, d: q } } });

const family: ParentageRecord[] = [
  { id: 'f' },
  { id: 'm' },
  { id: 'affected', sire: 'f', dam: 'm' },
  { id: 'sib', sire: 'f', dam: 'm' },
];
const carrierParents: CarrierEvidence[] = [
  { kind: 'genotype', id: 'g1', fish: 'f', genotype: 'D/d' },
  { kind: 'genotype', id: 'g2', fish: 'm', genotype: 'D/d' },
  { kind: 'phenotype', id: 'p1', fish: 'affected', phenotype: 'affected' },
  { kind: 'phenotype', id: 'p2', fish: 'sib', phenotype: 'normal' },
];

describe('the unaffected sib of an affected', () => {
  const pedigree = buildPedigree(family);
  it('is a carrier with 2/3', () => {
    const model = carrierModel({ pedigree, locus, evidence: carrierParents, founders: rare(0.1) });
    expect(model.method.kind).toBe('exact');
    expect(model.carries('sib', 'd')).toBeCloseTo(2 / 3, 12);
  });
  it('with a partner of whom 1 in 25 carry, risks 1/150 a child', () => {
    const model = carrierModel({
      pedigree: buildPedigree([...family, { id: 'partner' }]),
      locus,
      evidence: carrierParents,
      founders: {
        ...rare(0.1),
        byFish: {
          partner: {
            genotypes: [
              { genotype: 'D/d', probability: '1/25' },
              { genotype: 'D/D', probability: '24/25' },
            ],
          },
        },
      },
    });
    const brood = crossMixture(model.possiblePairs('sib', 'partner'), [locus]);
    const affected = brood.classes.find((one) => one.label === 'affected')!.probability;
    expect(Number(affected.numerator) / Number(affected.denominator)).toBeCloseTo(1 / 150, 12);
  });
  it.each([
    [1, 3 / 5],
    [2, 9 / 17],
    [3, 27 / 59],
    [5, 243 / 755],
  ])('mated to a known carrier with %i unaffected young, is a carrier with %f', (n, expected) => {
    const evidence: CarrierEvidence[] = [
      ...carrierParents,
      { kind: 'test-mating', id: 't', fish: 'sib', partner: 'D/d', counts: { normal: n } },
    ];
    const model = carrierModel({ pedigree, locus, evidence, founders: rare(0.1) });
    expect(model.carries('sib', 'd')).toBeCloseTo(expected, 12);
  });
});

describe('a test mating of a fish that carries with 1/2', () => {
  const pedigree = buildPedigree([
    { id: 'f' },
    { id: 'm' },
    { id: 'x', sire: 'f', dam: 'm' },
    { id: 'tester' },
  ]);
  it.each([
    [1, 1 / 3],
    [2, 1 / 5],
    [3, 1 / 9],
    [4, 1 / 17],
  ])('%i normal young of an affected partner leave %f', (n, expected) => {
    const base: CarrierEvidence[] = [
      { kind: 'genotype', id: 'a', fish: 'f', genotype: 'D/d' },
      { kind: 'genotype', id: 'b', fish: 'm', genotype: 'D/D' },
      { kind: 'phenotype', id: 'c', fish: 'tester', phenotype: 'affected' },
    ];
    const model = carrierModel({ pedigree, locus, evidence: base, founders: rare(0.2) });
    expect(model.carries('x', 'd')).toBeCloseTo(1 / 2, 12);
    const brood = {
      kind: 'brood',
      id: 't',
      sire: 'tester',
      dam: 'x',
      counts: { normal: n },
    } as const;
    expect(model.withRecord(brood).carries('x', 'd')).toBeCloseTo(expected, 12);
  });
});

describe('a genetic test that finds part of the carriers', () => {
  const tested = (detection: string, missed: string) =>
    defineLocus({
      id: 'd',
      name: 'D with a test',
      alleles: locus.alleles,
      phenotypes: ['negative', 'positive', 'affected'].map((id) => ({ id, name: id })),
      expression: [
        { genotype: 'D/D', shows: [{ phenotype: 'negative', probability: '1' }] },
        {
          genotype: 'D/d',
          shows: [
            { phenotype: 'positive', probability: detection },
            { phenotype: 'negative', probability: missed },
          ],
        },
        { genotype: 'd/d', shows: [{ phenotype: 'affected', probability: '1' }] },
      ],
    });
  it.each([
    ['2/3', '1/3', 1 / 6],
    ['1/25', '24/25', 1 / 241],
  ])('a negative test at 90 %% detection takes a prior of %s to %#', (carrier, clear, expected) => {
    const model = carrierModel({
      pedigree: buildPedigree([{ id: 'x' }]),
      locus: tested('9/10', '1/10'),
      evidence: [{ kind: 'phenotype', id: 't', fish: 'x', phenotype: 'negative' }],
      founders: {
        general: {
          genotypes: [
            { genotype: 'D/d', probability: carrier },
            { genotype: 'D/D', probability: clear },
          ],
        },
      },
    });
    expect(model.carries('x', 'd')).toBeCloseTo(expected, 12);
  });
  it.each([
    ['7/10', '3/10', 0.49],
    ['17/20', '3/20', 0.7225],
  ])('finds both of two carrier parents (%s each)', (detection, missed, expected) => {
    const both = carrierModel({
      pedigree: buildPedigree([{ id: 'f' }, { id: 'm' }]),
      locus: tested(detection, missed),
      evidence: ['f', 'm'].map(
        (fish) => ({ kind: 'phenotype', id: fish, fish, phenotype: 'positive' }) as const,
      ),
      founders: { general: { genotypes: 'D/d' } },
    });
    expect(Math.exp(both.logLikelihood!)).toBeCloseTo(expected, 12);
  });
});

describe('first cousins', () => {
  const cousins: ParentageRecord[] = [
    ...['a', 'u', 'v', 'w'].map((id) => ({ id })),
    { id: 'b', sire: 'a', dam: 'u' },
    { id: 'c', sire: 'a', dam: 'u' },
    { id: 'd', sire: 'b', dam: 'v' },
    { id: 'e', sire: 'w', dam: 'c' },
    { id: 'x', sire: 'd', dam: 'e' },
  ];
  it('have an affected child with q²(1 - F) + qF: 23/32000 at q = 1/100', () => {
    const model = carrierModel({
      pedigree: buildPedigree(cousins),
      locus,
      evidence: [],
      founders: rare(0.01),
    });
    const affected = model.posterior('x').genotypes.find((one) => one.text === 'd/d')!;
    expect(affected.probability).toBeCloseTo(23 / 32000, 15);
  });
  it('the unaffected sib of an affected and a first cousin: 1/24 when the allele is rare', () => {
    const pedigree = buildPedigree([
      ...cousins.filter((one) => one.id !== 'x'),
      { id: 'affected', sire: 'b', dam: 'v' },
      { id: 'y', sire: 'd', dam: 'e' },
    ]);
    const risk = (q: number) =>
      carrierModel({
        pedigree,
        locus,
        evidence: [
          { kind: 'phenotype', id: '1', fish: 'affected', phenotype: 'affected' },
          { kind: 'phenotype', id: '2', fish: 'd', phenotype: 'normal' },
        ],
        founders: rare(q),
      })
        .posterior('y')
        .genotypes.find((one) => one.text === 'd/d')!.probability;
    expect(risk(1e-7)).toBeCloseTo(1 / 24, 6);
    expect(risk(0.05)).toBeGreaterThan(1 / 24 + 1e-3);
  });
});
