import { coancestry } from '@linewright/kinship';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import type { PairingCandidate } from './candidate.js';
import { OUTCROSS_CAUTIONS } from './outcross-words.js';
import { suggestOutcrosses, type OutcrossInput } from './outcrosses.js';

const pedigree = buildPedigree([
  { id: 'A' }, { id: 'B' }, { id: 'C' }, { id: 'D' }, { id: 'E' },
  { id: 'm1', sire: 'A', dam: 'B' }, { id: 'f1', sire: 'A', dam: 'B' }, { id: 'f2', sire: 'A', dam: 'C' },
  { id: 'half', sire: 'A', dam: 'D' }, { id: 'far', sire: 'E', dam: 'C' }, { id: 'stranger' }, { id: 'rich' },
  // What the formulas for later generations must equal, bred out.
  { id: 'f1xhalf', sire: 'half', dam: 'f1' }, { id: 'f2xhalf', sire: 'half', dam: 'f2' },
]); // prettier-ignore
const born = { hatchedOn: '2026-05-01' };
const line: PairingCandidate[] = [
  { id: 'm1', tag: 'L-1', sex: 'male', ...born },
  { id: 'f1', tag: 'L-2', sex: 'female', ...born },
  { id: 'f2', tag: 'L-3', sex: 'female', genotypes: { m: 'm/m' }, ...born },
];
const partners: PairingCandidate[] = [
  { id: 'half', sex: 'male', ...born, genotypes: { dt: 'Dt/dt' } },
  { id: 'far', sex: 'male', ...born, genotypes: { dt: 'Dt/-' } },
  { id: 'stranger', sex: 'female', ...born },
  { id: 'rich', sex: 'unknown', genotypes: { dt: 'Dt/Dt' }, scores: [{ traitId: 't', value: 8, scoredOn: '2026-10-01' }] },
]; // prettier-ignore
const input: OutcrossInput = {
  pedigree,
  line,
  candidates: [...partners, ...line],
  asOf: '2026-11-25',
};
const theta = (a: string, b: string): number =>
  coancestry(pedigree, pedigree.indexOf(a), pedigree.indexOf(b));

describe('suggestOutcrosses', () => {
  it('sorts by mean coancestry with the line, then id, and passes over the line itself', () => {
    const found = suggestOutcrosses(input);
    expect(found.map(({ fishId }) => fishId)).toEqual(['rich', 'stranger', 'far', 'half']);
    expect(found[3]?.meanCoancestry).toBeCloseTo(0.125, 12);
    expect(found[2]?.meanCoancestry).toBeCloseTo(0.125 / 3, 12);
    expect(found[2]?.closest).toEqual({ id: 'f2', coancestry: 0.125 });
  });

  it('puts those that carry what is wanted first, then those that may', () => {
    const wanted = [{ kind: 'allele', locusId: 'dt', alleleId: 'double' }] as const;
    const found = suggestOutcrosses({ ...input, wanted });
    expect(found.map(({ fishId, wanted: [outcome] }) => [fishId, outcome?.answer])).toEqual([
      ['half', 'yes'],
      ['far', 'possible'],
      ['rich', 'no'],
      ['stranger', 'unknown'],
    ]);
    expect(found[2]?.reasons[0]).toMatchObject({ code: 'LACKS_WANTED', leaning: 'against' });
  });

  it('looks for phenotypes shown and for trait minimums', () => {
    const found = suggestOutcrosses({
      ...input,
      wanted: [
        { kind: 'phenotype', locusId: 'dt', phenotypeId: 'single' },
        { kind: 'trait', traitId: 't', name: 'form', atLeast: 7 },
      ],
    });
    expect(found[0]).toMatchObject({ fishId: 'rich', has: 2 });
    expect(found[0]?.reasons[1]?.text).toBe('It scores form at least 7: latest score 8.');
    const stricter = suggestOutcrosses({
      ...input,
      wanted: [{ kind: 'trait', traitId: 't', atLeast: 9 }],
    });
    expect(stricter.find(({ fishId }) => fishId === 'rich')?.wanted).toMatchObject([
      { answer: 'no', value: 8 },
    ]);
  });

  it('gives F of the first cross and of returning to the line, as bred out', () => {
    const half = suggestOutcrosses(input).find(({ fishId }) => fishId === 'half');
    expect(half?.firstCross).toEqual({ mean: 0.125, least: 0.125, most: 0.125, bestMateId: 'f1' });
    const returned = [
      theta('f1xhalf', 'm1'),
      theta('f1xhalf', 'f2'),
      theta('f2xhalf', 'm1'),
      theta('f2xhalf', 'f1'),
    ];
    expect(half?.returnToLine).toBeCloseTo(returned.reduce((sum, f) => sum + f, 0) / 4, 12);
    expect(half?.returnToParent).toBeCloseTo(
      (theta('f1xhalf', 'f1') + theta('f2xhalf', 'f2')) / 2,
      12,
    );
    expect(half?.withinLine).toBeCloseTo((theta('m1', 'f1') + theta('m1', 'f2')) / 2, 12);
  });

  it('says nothing of crosses for a fish that is not sexed', () => {
    const rich = suggestOutcrosses(input).find(({ fishId }) => fishId === 'rich');
    expect(rich).toMatchObject({ firstCross: null, returnToLine: null, returnToParent: null });
  });

  it('says of each partner what holds for it, and what holds for all of them apart', () => {
    const common = OUTCROSS_CAUTIONS.map(({ code }) => code);
    expect(common).toEqual(['OUTCROSS_IS_A_TRIAL', 'QUARANTINE']);
    expect(OUTCROSS_CAUTIONS[0].text).toContain('Monson CA & Sadler KC 2010');
    for (const { cautions, knownAncestry } of suggestOutcrosses(input)) {
      const codes = cautions.map(({ code }) => code);
      expect(codes.filter((code) => (common as string[]).includes(code))).toEqual([]);
      expect(codes.includes('UNKNOWN_ANCESTRY')).toBe(knownAncestry < 0.5);
    }
  });

  it('says "at least" of every figure that an unknown origin may raise, and of no other', () => {
    const founders = input.pedigree.ids.filter(
      (_, i) => (input.pedigree.sire[i] ?? -1) < 0 || (input.pedigree.dam[i] ?? -1) < 0,
    );
    const said = (unrelatedOrigin: string[]) =>
      suggestOutcrosses({ ...input, unrelatedOrigin }).flatMap(({ reasons, cautions }) =>
        [...reasons, ...cautions].filter(({ code }) =>
          ['MEAN_COANCESTRY', 'FIRST_CROSS', 'RETURN_TO_LINE', 'UNKNOWN_ANCESTRY'].includes(code),
        ),
      );
    const open = said([]);
    expect(open.some(({ code }) => code === 'UNKNOWN_ANCESTRY')).toBe(true);
    for (const { code, text } of open)
      if (code !== 'UNKNOWN_ANCESTRY')
        expect(text).toMatch(/at least|origin of some fish is not known/);
    const closed = said([...founders]);
    expect(closed.length).toBeGreaterThan(0);
    for (const { text } of closed) expect(text).not.toMatch(/at least|is not known|are known:/);
  });

  it('keeps to the limit and refuses an empty line', () => {
    expect(suggestOutcrosses({ ...input, limit: 2 })).toHaveLength(2);
    expect(() =>
      suggestOutcrosses({
        ...input,
        wanted: [{ kind: 'allele', locusId: 'dt', alleleId: 'dobule' }],
      }),
    ).toThrow(expect.objectContaining({ code: 'MATING_BAD_SETTING', subject: 'dobule' }) as Error);
    expect(() => suggestOutcrosses({ ...input, line: [] })).toThrow(
      expect.objectContaining({ code: 'MATING_TOO_FEW_FISH' }) as Error,
    );
  });
});
