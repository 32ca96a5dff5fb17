/** Linkage, sibships and one locus or two, against printed and recomputed examples; sources stand at each case. */
import {
  linkage,
  locusModel,
  pedigreeLogLikelihood,
  lodScore,
  productRatio,
  segregationRatio,
  type LinkageBrood,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { explicitPedigree, type PedigreeRow } from './explicit-pedigree.js';
import { expectPrinted } from './scores-of-rows.js';

const known = (recombinant: number, total: number): LinkageBrood[] => [
  { kind: 'testcross', recombinant, total, phase: 'known' },
];

describe('lod scores', () => {
  // Morton NE (1955) Am J Hum Genet 7:277-318 (method); textbook values from memory, confirmed by computation.
  it('ten meioses', () => {
    expectPrinted([lodScore(known(0, 10), 0), lodScore(known(1, 10), 0.1)], [3.01, 1.6], 2, 0.6);
    expect(linkage(known(1, 10)).recombination).toBeCloseTo(0.1, 6);
  });

  // Strachan T & Read AP, Human Molecular Genetics (worked box); from memory, confirmed by computation.
  it('one recombinant of six, phase known and unknown', () => {
    const unknown: LinkageBrood[] = [
      { kind: 'testcross', recombinant: 1, total: 6, phase: 'unknown' },
    ];
    const at = [0.1, 0.2, 0.3, 0.4];
    expectPrinted(
      at.map((theta) => lodScore(known(1, 6), theta)),
      [0.577, 0.623, 0.509, 0.299],
      3,
      0.6,
    );
    expectPrinted(
      at.map((theta) => lodScore(unknown, theta)),
      [0.276, 0.323, 0.222, 0.076],
      3,
      0.6,
    );
    expect(lodScore(unknown, 0)).toBe(-Infinity);
    expect(lodScore(unknown, 0.5)).toBe(0);
  });

  // Nail-patella and ABO, a classical teaching pedigree: 1 of 8 (lecture slides, read); the numbers computed.
  it('one recombinant of eight', () => {
    const found = linkage(known(1, 8));
    expectPrinted(
      [found.recombination, lodScore(known(1, 8), 0.1), found.lod],
      [0.125, 1.088, 1.099],
      3,
      0.6,
    );
  });

  // Conneally PM et al. (1985) Cytogenet Cell Genet 40:356-359 (method); computed by root finding.
  it.each([
    [1, 10, 0.004, 0.4032],
    [2, 20, 0.0139, 0.2987],
    [10, 100, 0.0478, 0.1763],
    [0, 10, 0, 0.2057],
  ])('support of %i of %i', (recombinant, total, low, high) => {
    const { support } = linkage(known(recombinant, total));
    expectPrinted([support.low, support.high], [low, high], 4, 0.6);
  });
});

describe('crosses', () => {
  // Hutchison CB (1922) J Hered 12:76-83 (maize). Read in source (course page).
  it('test crosses of maize', () => {
    const percent = [known(301, 8368), known(1310, 44595)].map(
      (b) => 100 * linkage(b).recombination,
    );
    expectPrinted(percent, [3.6, 2.94], 2, 0.6);
  });

  // Robertson DW et al. (1944) J Am Soc Agron 36:66-72 (barley). Counts and product method read (university course pages).
  it('second generation of barley in repulsion', () => {
    const counts = [753, 292, 351, 19] as const;
    const found = linkage([{ kind: 'intercross', counts, phase: 'repulsion' }]);
    expectPrinted([productRatio(counts, 'repulsion'), found.recombination], [0.245, 0.2443], 3, 1);
    expectPrinted([found.standardError!, found.recombination ** 2], [0.0247, 0.0597], 3, 1);
    expectPrinted([found.lod], [22.4295], 3, 1);
  });

  // Bateson and Punnett's sweet peas, 381 plants. Counts read (course page); estimates computed.
  it('sweet peas in coupling, and with the phase unknown', () => {
    const counts = [284, 21, 21, 55] as const;
    const found = linkage([{ kind: 'intercross', counts, phase: 'coupling' }]);
    expectPrinted([productRatio(counts, 'coupling'), found.recombination], [0.1298, 0.128], 4, 1);
    expectPrinted(
      [found.standardError!, (1 - found.recombination) ** 2, found.lod],
      [0.0186, 0.7603, 30.9727],
      4,
      1,
    );
    // So many tell their phase themselves: it is one of four, at the same place.
    const unknown = linkage([{ kind: 'intercross', counts, phase: 'unknown' }]);
    expect(unknown.recombination).toBeCloseTo(found.recombination, 6);
    expect(unknown.lod).toBeCloseTo(found.lod + Math.log10(0.25), 6);
  });
});

describe('sibships and loci', () => {
  // Hogben et al. 1932 series of alkaptonuria, teaching table (course handout, read); estimate and test computed.
  it('alkaptonuria', () => {
    const rows = [
      [2, 8, 10],
      [3, 5, 8],
      [4, 2, 4],
      [5, 3, 4],
      [6, 3, 8],
      [7, 2, 5],
      [8, 3, 5],
      [9, 1, 4],
      [10, 1, 2],
      [11, 3, 7],
      [14, 1, 4],
    ] as const;
    const found = segregationRatio(
      rows.map(([size, sibships, affected]) => ({ size, sibships, affected })),
    );
    expectPrinted([found.expected, found.observed, found.young], [56.9, 61, 176], 1, 0.6);
    expectPrinted([found.ratio, found.likelihoodRatio], [0.2819, 0.6816], 4, 1);
    // The handout went on from 56.9.
    const [expected, all] = [Number(found.expected.toFixed(1)), found.young];
    const square = (found.observed - expected) ** 2;
    expectPrinted([square / expected + square / (all - expected)], [0.436], 3, 1);
  });

  // Elston RC & Stewart J (1971) Hum Hered 21:523-542 (method); the pedigree was made up, the likelihood computed with exact fractions by
  // enumeration and by hand.
  it('a pedigree with a recessive', () => {
    const pedigree = explicitPedigree([
      ['A', null, null],
      ['B', null, null],
      ['P', null, null],
      ['c', 'A', 'B'],
      ['d', 'A', 'B'],
      ['e', 'A', 'B'],
      ['f', 'A', 'B'],
      ['g', 'c', 'P'],
      ['h', 'c', 'P'],
      ['i', 'e', 'f'],
      ['j', 'e', 'f'],
    ]);
    const seen = pedigree.ids.map((id) => Number(['d', 'h'].includes(id)));
    const model = locusModel(1, 0.2, ([copies]) => Number(copies === 2));
    const log = pedigreeLogLikelihood(pedigree, seen, model);
    expect(Math.exp(log)).toBeCloseTo(87 / 250000, 15);
    expectPrinted([log / Math.LN10], [-3.458421], 6, 0.6);
    const carrier = (id: string) =>
      Math.exp(
        pedigreeLogLikelihood(pedigree, seen, model, new Map([[pedigree.indexOf(id), 1]])) - log,
      );
    expectPrinted([carrier('c'), carrier('e')], [1, 0.586207], 6, 0.6);
  });

  // Bateson W, Saunders ER & Punnett RC: white by white sweet peas, 382 purple and 269 white in the second generation. Counts from memory;
  // likelihoods computed.
  it('one locus or two: 382 purple and 269 white', () => {
    const young = Array.from({ length: 651 }, (_, k): PedigreeRow => [`y${k}`, 's', 'd']);
    const pedigree = explicitPedigree([['s', null, null], ['d', null, null], ...young]);
    const seen = pedigree.ids.map((id) =>
      id.startsWith('y') ? Number(Number(id.slice(1)) < 382) : -1,
    );
    const parents = (state: number) =>
      new Map(['s', 'd'].map((id) => [pedigree.indexOf(id), state] as const));
    const two = locusModel(2, 0.5, ([a, b]) => Number(a! > 0 && b! > 0));
    const one = locusModel(1, 0.5, ([a]) => Number(a! > 0));
    // Both parents heterozygous: 4 = one copy at each of two loci. Their own chances as founders are taken off.
    const log = [
      pedigreeLogLikelihood(pedigree, seen, two, parents(4)) - 2 * Math.log(two.founders[4]!),
      pedigreeLogLikelihood(pedigree, seen, one, parents(1)) - 2 * Math.log(one.founders[1]!),
    ];
    expectPrinted([(log[0]! - log[1]!) / Math.LN10], [17.651], 3, 1);
  });
});
