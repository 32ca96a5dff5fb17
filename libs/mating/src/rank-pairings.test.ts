import { buildPedigree, pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import type { PairingCandidate, TraitScore } from './candidate.js';
import type { PairingInput } from './pairing-input.js';
import { completePurpose, type LinePurpose } from './purpose/line-purpose.js';
import {
  broodOutlooks,
  explainPairing,
  judgePairings,
  passingOfPair,
  rankPairings,
  type PairingRanking,
} from './rank-pairings.js';
import { completeSettings, stricterOfBoth } from './settings.js';
import type { WorthBasis } from './worth/judged-worth.js';

const pedigree = buildPedigree([
  { id: 'A' }, { id: 'B' }, { id: 'C' }, { id: 'D' },
  { id: 'm1', sire: 'A', dam: 'B' }, { id: 'm2', sire: 'A', dam: 'D' }, { id: 'm3', sire: 'C', dam: 'D' },
  { id: 'f1', sire: 'A', dam: 'B' }, { id: 'f2', sire: 'C', dam: 'D' }, { id: 'x' },
]); // prettier-ignore

const spread = (value: number): TraitScore[] => [{ traitId: 't', value, scoredOn: '2026-10-01' }];
const born = { hatchedOn: '2026-05-01' };
const candidates: PairingCandidate[] = [
  { id: 'm1', tag: 'M-1', sex: 'male', spawnId: 's1', genotypes: { bl: 'Bl/bl', dt: 'Dt/dt' }, scores: spread(180), ...born },
  { id: 'm2', tag: 'M-2', sex: 'male', genotypes: { bl: 'Bl/Bl' }, scores: spread(160), ...born },
  { id: 'm3', tag: 'M-3', sex: 'male', genotypes: { bl: 'bl/bl', dt: 'Dt/-' }, ...born },
  { id: 'f1', tag: 'F-1', sex: 'female', spawnId: 's1', genotypes: { bl: 'Bl/bl', dt: 'Dt/dt' }, scores: spread(170), ...born },
  { id: 'f2', tag: 'F-2', sex: 'female', genotypes: { bl: 'Bl/bl', m: 'm/m' }, ...born },
  { id: 'x', tag: 'X-1', sex: 'unknown' },
]; // prettier-ignore
const input: PairingInput = { pedigree, candidates, asOf: '2026-11-25' };
const names = (ranking: PairingRanking): string[] =>
  ranking.rows().map((row) => `${row.sireName} x ${row.damName}`);

const turquoise = { id: 't', name: 'Turquoise' };
const lined: PairingInput = {
  ...input,
  candidates: candidates.map((one) =>
    one.id === 'm1' || one.id === 'f1'
      ? { ...one, line: turquoise }
      : one.id === 'm3' || one.id === 'f2'
        ? { ...one, line: { id: 'c', name: 'Copper' } }
        : one,
  ),
};

describe('lines', () => {
  const row = (sireId: string, damId: string) => {
    const ranking = rankPairings(lined);
    return ranking.rows()[ranking.positionOf(sireId, damId)];
  };
  const codes = (sireId: string, damId: string) =>
    row(sireId, damId)?.warnings.map((one) => one.code) ?? [];

  it('cautions against a cross between two lines, not within one nor where a line is not known', () => {
    const warning = row('m1', 'f2')?.warnings.find((one) => one.code === 'BETWEEN_LINES');
    expect(warning).toMatchObject({ severity: 'caution', basis: 'common practice, no source' });
    expect(warning?.text).toMatch(/Turquoise and Copper.*F2.*trial/);
    expect(codes('m1', 'f1')).not.toContain('BETWEEN_LINES');
    expect(codes('m3', 'f2')).not.toContain('BETWEEN_LINES');
    expect(codes('m2', 'f1')).not.toContain('BETWEEN_LINES');
  });

  it('puts pairs of one line first, each group in its order, or leaves the others out', () => {
    const within = ['M-1 x F-1', 'M-3 x F-2'];
    const order = { by: 'inbreeding', withinLineFirst: true } as const;
    const first = rankPairings(lined, {}, order);
    expect(new Set(names(first).slice(0, 2))).toEqual(new Set(within));
    expect(first.length).toBe(6);
    const rest = first.rows(2).map((one) => one.inbreeding);
    expect(rest).toEqual(rest.toSorted((a, b) => a - b));
    expect(new Set(names(rankPairings(lined, { withinLine: true })))).toEqual(new Set(within));
  });
});

describe('settings of lines', () => {
  const warned = (settingsOfLines: PairingInput['settingsOfLines'], sire: string, dam: string) => {
    const ranking = rankPairings({ ...lined, ...(settingsOfLines && { settingsOfLines }) });
    const row = ranking.rows()[ranking.positionOf(sire, dam)]!;
    return row.warnings.map(({ code, concerns }) => `${concerns} ${code}`);
  };
  it('judge each fish by its own line', () => {
    const old = {
      ages: { capableFrom: 4_000, preferredFrom: 4_000, bestUntil: 5_000, fertileUntil: 5_000 },
    };
    expect(warned(undefined, 'm1', 'f2').join()).not.toContain('TOO_YOUNG');
    expect(warned({ t: old }, 'm1', 'f2')).toContain('sire TOO_YOUNG');
    expect(warned({ t: old }, 'm1', 'f2')).not.toContain('dam TOO_YOUNG');
    expect(warned({ c: old }, 'm1', 'f2')).toContain('dam TOO_YOUNG');
  });

  it('hold a pair of two lines to the lower F of both', () => {
    const usual = completeSettings();
    const strict = completeSettings({
      inbreedingCeiling: 0,
      bodyLengthRatio: { least: 0.9, most: 1.1 },
    });
    for (const [one, other] of [
      [usual, strict],
      [strict, usual],
    ] as const)
      expect(stricterOfBoth(one, other)).toMatchObject({
        inbreedingCeiling: 0,
        bodyLengthRatio: { least: 0.9, most: 1.1 },
      });
    const wide = completeSettings({ bodyLengthRatio: { least: 0.8, most: 1 } });
    expect(stricterOfBoth(wide, strict).bodyLengthRatio).toEqual({ least: 0.9, most: 1 });
    // Full sibs of one line: F 1/4, within what their own line allows.
    const open = { inbreedingCeiling: 0.25 };
    expect(warned(undefined, 'm1', 'f1')).toContain('brood ABOVE_CEILING');
    expect(warned({ t: open }, 'm1', 'f1')).not.toContain('brood ABOVE_CEILING');
  });
});

describe('rankPairings', () => {
  it('puts every male to every female and names who is left out', () => {
    const ranking = rankPairings(input);
    expect(ranking).toMatchObject({ maleCount: 3, femaleCount: 2, considered: 6, length: 6 });
    expect(ranking.leftOut).toMatchObject([{ id: 'x', why: 'SEX_NOT_KNOWN' }]);
    expect(new Set(names(ranking)).size).toBe(6);
    expect(ranking.rows().map(({ place }) => place)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('gives F of the brood, its band, the relationship and the common ancestors', () => {
    const ranking = rankPairings({ ...input, names: new Map([['A', 'old sire']]) });
    const row = ranking.rows()[ranking.positionOf('m1', 'f1')];
    expect(row).toMatchObject({
      inbreeding: 0.25,
      band: { id: 'full-siblings' },
      relationship: 'full-siblings',
    });
    expect(row?.commonAncestry).toMatchObject({ count: 2, accountedFor: 0.25, complete: true });
    const ancestors = row?.reasons.find(({ code }) => code === 'COMMON_ANCESTORS');
    expect(ancestors?.text).toBe(
      'Common ancestors by what each adds to F: B 12.50 %, old sire 12.50 %.',
    );
  });

  it('keeps discouraged pairings in the list, last, with the reason', () => {
    const rows = rankPairings(input).rows();
    const discouraged = rows.filter((row) => row.discouraged);
    expect(discouraged.map(({ damId }) => damId)).toEqual(['f2', 'f2', 'f2']);
    expect(discouraged.map(({ place }) => place)).toEqual([4, 5, 6]);
    expect(discouraged[0]?.warnings[0]).toMatchObject({
      code: 'MELANO_DAM_EGGS_DO_NOT_HATCH',
      severity: 'stop',
    });
    expect(
      discouraged[0]?.reasons.some(
        ({ code, text }) => code === 'WARNINGS' && text.startsWith('Do not pair now'),
      ),
    ).toBe(true);
  });

  const worth = (change: Partial<LinePurpose> = {}): WorthBasis => ({
    purpose: completePurpose({
      traits: [{ traitId: 't', better: 'higher', low: 165, high: null, worth: 2 }],
      looks: [{ look: { show: { bl: 'royal' } }, wanted: true, worth: 10, required: true }],
      inbreedingCost: 1,
      broods: 2,
      keep: 8,
      ...change,
    }),
    traits: [
      {
        ...{ traitId: 't', level: 165, additive: 30, commonBrood: 2, residual: 20 },
        line: { mean: 166, deviation: 7 },
      },
    ],
    ...{ fry: 60, survival: 0.5, load: 0 },
  });
  const valued: PairingInput = {
    ...input,
    candidates: candidates.map((one) => ({
      ...one,
      values: { t: { value: one.id === 'm1' ? 6 : 0, standardError: one.id === 'f1' ? 4 : 2 } },
      ...(one.id === 'm3' && {
        carries: {
          bl: [
            { genotype: 'bl/bl', probability: 0.5 },
            { genotype: 'Bl/bl', probability: 0.5 },
          ],
        },
      }),
    })),
    worth: worth(),
  };

  it('puts the list in order of worth, with its parts and its error, and stops behind all others', () => {
    const ranking = rankPairings(valued);
    const rows = ranking.rows();
    expect(ranking.best).toEqual({ sireId: 'm1', damId: 'f1' });
    expect(rows.map(({ discouraged }) => discouraged)).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
    for (const part of [rows.slice(0, 3), rows.slice(3)]) {
      const found = part.map((row) => row.worth.worth);
      expect(found).toEqual(found.toSorted((a, b) => b - a));
    }
    const sibs = rows[ranking.positionOf('m1', 'f1')]!.worth;
    expect(sibs.traits[0]).toMatchObject({ traitId: 't', points: 4, young: { mean: 168 } });
    // Both carry Bl/bl: half of the young are royal.
    expect(sibs.looks).toEqual([
      { label: 'royal', wanted: true, required: true, share: 0.5, points: 5 },
    ]);
    expect(sibs.inbreeding).toBeCloseTo(-2.5, 12);
    expect(sibs.worth).toBeCloseTo(4 + 5 + sibs.choice - 2.5, 12);
    expect(sibs.standardError).toBeCloseTo(2 * Math.sqrt((4 + 16) / 4), 12);
    expect(sibs.likeBest).toBe(true);
    expect(sibs.raised).toBe(30);
  });

  it('goes by what a fish may carry where that was worked out', () => {
    const ranking = rankPairings(valued);
    const row = ranking.rows()[ranking.positionOf('m3', 'f1')]!;
    expect(row.worth.looks[0]?.share).toBe(0.5);
    const wished = rankPairings({ ...valued, wanted: [{ show: { bl: 'steel' } }] });
    // Steel by half of the chances (1/2), a carrier by the other (1/4).
    const [outcome] = wished.rows()[wished.positionOf('m3', 'f1')]!.wishes;
    expect(outcome?.share).toBe(0.375);
  });

  it('tells the same of a pair in the list, alone, and held against the best', () => {
    const ranking = rankPairings(valued);
    const listed = ranking.rows();
    const alone = judgePairings(valued, ranking.pairs(), ranking.best);
    expect(alone).toEqual(listed);
  });

  it('says what is passed, and how many fry it takes', () => {
    const passing = passingOfPair(valued, { sireId: 'm1', damId: 'f1' });
    expect(passing).toMatchObject({ wanted: 4, fry: 60, survival: 0.5 });
    const [least, , most] = passing.fryFor.map(({ fry }) => fry);
    expect(passing.chance).toBeGreaterThan(0.5);
    expect(most!).toBeGreaterThan(least!);
    const close = passingOfPair(
      { ...valued, worth: { ...worth(), load: 4 } },
      { sireId: 'm1', damId: 'f1' },
    );
    const pairs = [{ sireId: 'm1', damId: 'f1' }, ...rankPairings(valued).pairs()];
    const rows = judgePairings(valued, pairs);
    expect(broodOutlooks(valued, pairs)).toEqual(
      pairs.map((pair, k) => ({
        standardError: rows[k]!.worth.standardError,
        passing: passingOfPair(valued, pair),
      })),
    );
    expect(close.survival).toBeCloseTo(0.5 * Math.exp(-1), 12);
    expect(close.chance!).toBeLessThan(passing.chance!);
  });

  it('is in order of F as long as nobody said what the line is for', () => {
    const open = rankPairings(input)
      .rows()
      .filter(({ discouraged }) => !discouraged);
    const found = open.map(({ inbreeding }) => inbreeding);
    expect(found).toEqual(found.toSorted((a, b) => a - b));
    expect(open.map((row) => row.worth.worth)).toEqual([0, 0, 0]);
    expect(rankPairings(input).best).toEqual({ sireId: 'm3', damId: 'f1' });
  });

  it('gives expected classes with exact fractions, and says what is not known', () => {
    const wanted = [{ show: { bl: 'royal', dt: 'double' } }, { show: { dt: 'double' } }];
    const ranking = rankPairings({ ...input, wanted });
    const siblings = ranking.rows()[ranking.positionOf('m1', 'f1')];
    expect(siblings?.expected.computed.toSorted()).toEqual(['bl', 'dt']);
    expect(siblings?.byLocus).toEqual([
      { locusId: 'bl', shares: [{ phenotypeId: 'royal', share: 0.5 }, { phenotypeId: 'turquoise', share: 0.25 }, { phenotypeId: 'steel', share: 0.25 }] },
      { locusId: 'dt', shares: [{ phenotypeId: 'single', share: 0.75 }, { phenotypeId: 'double', share: 0.25 }] },
    ]); // prettier-ignore
    expect(siblings?.expected.expectation?.classes).toHaveLength(6);
    expect(siblings?.wishes).toMatchObject([{ share: 0.125 }, { share: 0.25 }]);
    const unsure = ranking.rows()[ranking.positionOf('m3', 'f1')];
    expect(unsure?.wishes).toMatchObject([{ share: null }, { share: null }]);
    expect(unsure?.reasons.filter(({ code }) => code === 'CLASS_NOT_KNOWN')).toHaveLength(2);
  });

  it('a class with one part that cannot occur is at 0 whatever the rest', () => {
    const ranking = rankPairings({ ...input, wanted: [{ show: { bl: 'steel', dt: 'double' } }] });
    expect(ranking.rows()[ranking.positionOf('m2', 'f1')]?.wishes).toMatchObject([{ share: 0 }]);
  });

  it("explains a parents' mean and a missing one", () => {
    const ranking = rankPairings({
      ...input,
      traits: [{ traitId: 't', name: 'tail spread', unit: 'degrees' }],
    });
    const scored = ranking.rows()[ranking.positionOf('m1', 'f1')];
    expect(scored?.reasons.find(({ code }) => code === 'MID_PARENT')?.text).toBe(
      "tail spread: parents' mean 175 degrees from 2 scores, between 170 and 180; better than the candidates' mean. Not a prediction of the young.",
    );
    const missing = ranking.rows()[ranking.positionOf('m1', 'f2')];
    expect(missing?.reasons.find(({ code }) => code === 'MID_PARENT_MISSING')?.text).toContain(
      'the dam is not scored',
    );
    const alike = rankPairings({
      ...input,
      candidates: candidates.map((one) =>
        one.id === 'f1' ? { ...one, scores: spread(180) } : one,
      ),
      traits: [{ traitId: 't', name: 'tail spread', unit: 'degrees' }],
    });
    const same = alike.rows()[alike.positionOf('m1', 'f1')];
    expect(same?.reasons.find(({ code }) => code === 'MID_PARENT')?.text).toContain(
      "parents' mean 180 degrees from 2 scores, each 180;",
    );
  });

  it('calls F the least that it can be exactly where an origin is unknown and not said to be unrelated', () => {
    const judged = (unrelatedOrigin: string[], sireId = 'm1', damId = 'f1') => {
      const ranking = rankPairings({ ...input, unrelatedOrigin });
      const row = ranking.rows()[ranking.positionOf(sireId, damId)];
      return {
        basis: row?.basis,
        codes: [...(row?.warnings ?? []), ...(row?.reasons ?? [])].map(({ code }) => code),
        said: row?.reasons[0]?.text,
        known: row?.knownAncestry.sire,
      };
    };
    // A and B are the parents of both: F = 1/4 exactly once both are said to be unrelated to all others.
    const open = judged([]);
    expect(open).toMatchObject({ basis: 'at-least', known: 1 / 4 });
    expect(open.codes.filter((code) => code === 'UNKNOWN_ANCESTRY')).toHaveLength(2);
    expect(open.said).toMatch(/^F of the brood is at least 25\.00 %: by what is known, /);
    const half = judged(['A']);
    expect(half).toMatchObject({ basis: 'at-least', known: (1 + 3 / 2) / 4 });
    const closed = judged(['A', 'B']);
    expect(closed).toMatchObject({ basis: 'known', known: 1 });
    expect(closed.codes).not.toContain('UNKNOWN_ANCESTRY');
    expect(closed.said).toMatch(/^F of the brood is 25\.00 %: at least that of a full-sib mating/);
    expect(judged([], 'm1', 'f2').said).toMatch(/on record: F of the brood is at least 0/);
    expect(judged(['A', 'B', 'C', 'D'], 'm1', 'f2').said).toBe(
      'No common ancestor: F of the brood is 0.',
    );
  });

  it('young of a spawn without known parents: one of them said to be unrelated tells for its sibs', () => {
    const sibs = pedigreeFromArrays(
      Int32Array.of(-1, -1, 0, 0),
      Int32Array.of(-1, -1, 1, 1),
      ['P', 'Q', 'm1', 'f1'],
      Uint8Array.of(1, 1, 0, 0),
    );
    const two = candidates.filter(({ id }) => id === 'm1' || id === 'f1');
    const basis = (unrelatedOrigin: string[]) => {
      const [row] = rankPairings({
        ...input,
        pedigree: sibs,
        candidates: two,
        unrelatedOrigin,
      }).rows();
      return [row?.basis, row?.knownAncestry.sire, row?.inbreeding];
    };
    expect(basis([])).toEqual(['at-least', 0, 1 / 4]);
    expect(basis(['m1'])).toEqual(['known', 1, 1 / 4]);
  });

  it('warns of the ceiling, the same spawn, little known ancestry and a failure before', () => {
    const pastPairings = [
      {
        sireId: 'm1',
        damId: 'f1',
        on: '2026-10-01',
        outcome: 'failed' as const,
        reason: 'no nest',
      },
      { sireId: 'm1', damId: 'f1', on: '2026-09-01', outcome: 'spawned' as const },
    ];
    const ranking = rankPairings({ ...input, pastPairings });
    const row = ranking.rows()[ranking.positionOf('m1', 'f1')];
    const codes = row?.warnings.map(({ code, severity }) => `${code} ${severity}`);
    expect(codes).toEqual([
      'ABOVE_CEILING caution',
      'FAILED_BEFORE caution',
      'UNKNOWN_ANCESTRY note',
      'SAME_SPAWN note',
    ]);
    expect(row?.warnings[1]?.text).toBe(
      'These two were paired before on 2026-10-01 and it failed: no nest.',
    );
    expect(row?.reasons.some(({ code }) => code === 'SPAWNED_BEFORE')).toBe(true);
  });

  it('does not warn at the ceiling itself', () => {
    const ranking = rankPairings({ ...input, settings: { inbreedingCeiling: 0.25 } });
    const row = ranking.rows()[ranking.positionOf('m1', 'f1')];
    expect(row?.warnings.map(({ code }) => code)).not.toContain('ABOVE_CEILING');
  });

  it('checks sizes only when asked to', () => {
    const sized = candidates.map((fish) => ({
      ...fish,
      bodyLength: fish.sex === 'male' ? 40 : 30,
    }));
    const codesOf = (settings: PairingInput['settings']): string[] =>
      rankPairings({ ...input, candidates: sized, ...(settings ? { settings } : {}) })
        .rows(0, 1)
        .flatMap(({ warnings }) => warnings.map(({ code }) => code));
    expect(codesOf(undefined)).not.toContain('SIZE_MISMATCH');
    expect(codesOf({ bodyLengthRatio: { least: 0.8, most: 1.2 } })).toContain('SIZE_MISMATCH');
  });
});

describe('filters', () => {
  it('refuses a misspelt class instead of emptying the list', () => {
    expect(() => rankPairings(input, { mustGive: [{ show: { dt: 'dobule' } }] })).toThrow(
      /single, double|double, single/,
    );
  });

  const kept = (filter: Parameters<typeof rankPairings>[1]): string[] =>
    names(rankPairings(input, filter)).toSorted();

  it('by the highest F, included', () => {
    expect(kept({ maximumInbreeding: 0 })).toEqual(['M-1 x F-2', 'M-3 x F-1']);
    expect(kept({ maximumInbreeding: 0.125 })).toHaveLength(4);
  });

  it('by what must come out; not known is left out', () => {
    expect(kept({ mustGive: [{ show: { dt: 'double' } }] })).toEqual(['M-1 x F-1']);
  });

  it('by what must not come out; not known stays and says so', () => {
    const ranking = rankPairings(input, { mustNotGive: [{ show: { dt: 'double' } }] });
    expect(ranking.positionOf('m1', 'f1')).toBe(-1);
    const unsure = ranking.rows()[ranking.positionOf('m3', 'f1')];
    expect(unsure?.reasons.at(-1)).toMatchObject({ code: 'CLASS_NOT_KNOWN' });
  });

  it('by severity, by warning and by fish', () => {
    expect(kept({ leaveOutFrom: 'stop' })).toHaveLength(3);
    expect(kept({ leaveOutFrom: 'caution' })).toEqual(['M-2 x F-1', 'M-3 x F-1']);
    expect(kept({ leaveOutWarnings: ['SAME_SPAWN'] })).toHaveLength(5);
    expect(kept({ sireIds: ['m2'], damIds: ['f1'] })).toEqual(['M-2 x F-1']);
    expect(rankPairings(input, { sireIds: [] }).length).toBe(0);
  });
});

describe('order', () => {
  const first = (
    order: Parameters<typeof rankPairings>[2],
    extra: Partial<PairingInput> = {},
  ): string | undefined => names(rankPairings({ ...input, ...extra }, {}, order))[0];

  it('by F, either way', () => {
    expect(first({ by: 'inbreeding' })).toBe('M-1 x F-2');
    expect(first({ by: 'inbreeding', reversed: true })).toBe('M-1 x F-1');
  });

  it('by name', () => {
    expect(first({ by: 'sire', reversed: true })).toBe('M-3 x F-1');
    expect(first({ by: 'dam', reversed: true })).toBe('M-1 x F-2');
  });

  it('of pairs alike in everything: by name, whatever ids they have', () => {
    const named = (ids: Record<string, string>): PairingInput => ({
      pedigree: buildPedigree(Object.values(ids).map((id) => ({ id }))),
      asOf: '2026-11-25',
      candidates: Object.entries(ids).map(([tag, id]) => ({
        id,
        tag,
        sex: tag.startsWith('M') ? 'male' : 'female',
      })),
    });
    const byNames = ['M-1 x F-1', 'M-1 x F-2', 'M-2 x F-1', 'M-2 x F-2'];
    for (const ids of [
      { 'M-1': 'a', 'M-2': 'b', 'F-1': 'c', 'F-2': 'd' },
      { 'F-2': 'a', 'M-2': 'b', 'F-1': 'c', 'M-1': 'd' },
    ])
      expect(names(rankPairings(named(ids)))).toEqual(byNames);
  });

  it('pages without gaps', () => {
    const ranking = rankPairings(input);
    const paged = [...ranking.rows(0, 4), ...ranking.rows(4, 4)];
    expect(paged).toEqual(ranking.rows());
    expect(ranking.pairs(0, 6)).toEqual(paged.map(({ sireId, damId }) => ({ sireId, damId })));
  });
});

describe('explainPairing', () => {
  it('gives the row of the list with paths and cautions', () => {
    const ranking = rankPairings(input);
    const row = ranking.rows()[ranking.positionOf('m1', 'f1')];
    const { paths, cautions, ...rest } = explainPairing(input, 'm1', 'f1');
    // Alone it is held against no other.
    const { likeBest, ...worth } = row!.worth;
    expect(likeBest).toBeDefined();
    expect(rest).toEqual({ ...row, worth, place: 0 });
    expect(paths.coefficient).toBe(0.25);
    expect(cautions.join(' ')).toMatch(/guides and no limits/);
  });

  it('refuses what is not a male and a female of the candidates', () => {
    const refusal = (sire: string, dam: string) => () => explainPairing(input, sire, dam);
    expect(refusal('f1', 'f2')).toThrow(
      expect.objectContaining({ code: 'MATING_WRONG_SEX', subject: 'f1' }) as Error,
    );
    expect(refusal('m1', 'x')).toThrow(/recorded as unknown/);
    expect(refusal('A', 'f1')).toThrow(
      expect.objectContaining({ code: 'MATING_UNKNOWN_FISH' }) as Error,
    );
  });
});

describe('input that cannot be judged', () => {
  it.each<[string, Partial<PairingInput>]>([
    ['MATING_UNKNOWN_FISH', { candidates: [{ id: 'nobody', sex: 'male' }] }],
    ['MATING_DUPLICATE_FISH', { candidates: [candidates[0]!, candidates[0]!] }],
    ['MATING_BAD_DATE', { asOf: 'today' }],
    ['MATING_BAD_SETTING', { wanted: [{ show: { bl: 'roayl' } }] }],
    ['MATING_BAD_SETTING', { unwanted: [{ show: {} }] }],
  ])('%s', (code, more) => {
    expect(() => rankPairings({ ...input, ...more })).toThrow(
      expect.objectContaining({ code }) as Error,
    );
  });

  it('is an empty list when one sex is missing', () => {
    const ranking = rankPairings({
      ...input,
      candidates: candidates.filter(({ sex }) => sex === 'male'),
    });
    expect([ranking.length, ranking.rows()]).toEqual([0, []]);
  });
});
