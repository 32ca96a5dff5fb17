import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import type { PairingCandidate } from './candidate.js';
import { rankPairings } from './rank-pairings.js';
import { lookFor } from './wanted-in-partner.js';

const pedigree = buildPedigree(['m', 'f'].map((id) => ({ id })));
const pair = (sire: Record<string, string>, dam: Record<string, string>): PairingCandidate[] => [
  { id: 'm', sex: 'male', genotypes: sire },
  { id: 'f', sex: 'female', genotypes: dam },
];
const row = (candidates: PairingCandidate[], show: Record<string, string>) =>
  rankPairings({ pedigree, candidates, asOf: '2026-01-01', wanted: [{ show }] }).rows()[0];

describe('a wished class that another locus hides', () => {
  it.each([
    ['all are albino', { al: 'al/al', m: 'M/m' }, { m: 'melano' }, 0],
    ['cambodian hides a quarter of the blond', { c: 'C/c', b: 'B/b' }, { b: 'blond' }, 3 / 16],
    ['nothing hides it', { m: 'M/m' }, { m: 'melano' }, 1 / 4],
  ] as const)('%s', (_, genotypes, show, share) => {
    const found = row(pair(genotypes, genotypes), show);
    expect(found?.wishes[0]?.share).toBeCloseTo(share, 12);
    // The row's own classes and its reason say the same.
    const [[locus, phenotype] = ['', '']] = Object.entries(show);
    const classes = (found?.expected.expectation?.classes ?? [])
      .filter((one) => one.parts.some((part) => part.loci[0] === locus && part.phenotype === phenotype))
      .reduce((sum, one) => sum + Number(one.probability.numerator) / Number(one.probability.denominator), 0);
    expect(classes).toBeCloseTo(share, 12);
    const byLocus = found?.byLocus.find((one) => one.locusId === locus)?.shares;
    expect(byLocus?.find((one) => one.phenotypeId === phenotype)?.share ?? 0).toBeCloseTo(share, 12);
    expect(found?.reasons.find(({ code }) => code === 'WANTED_CLASS')?.leaning).toBe(share > 0 ? 'for' : 'against');
  }); // prettier-ignore
  it('is not known where the hiding locus is on record for one parent only', () => {
    const found = row(pair({ al: 'al/al', m: 'M/m' }, { m: 'M/m' }), { m: 'melano' });
    expect(found?.wishes[0]?.share).toBeNull();
    expect(found?.reasons.some(({ code }) => code === 'CLASS_NOT_KNOWN')).toBe(true);
  });
});

describe('a look wanted in a partner', () => {
  it.each([
    [{ b: 'b/b' }, 'yes'],
    [{ b: 'b/b', c: 'c/c' }, 'no'],
    [{ b: 'b/b', c: 'C/-' }, 'yes'],
    [{ b: 'b/b', al: 'Al/al' }, 'yes'],
    [{ b: 'b/b', al: 'al/al' }, 'no'],
    [{ c: 'C/c' }, 'unknown'],
  ] as const)('of %j is blond: %s', (genotypes, answer) => {
    const fish: PairingCandidate = { id: 'm', sex: 'male', genotypes };
    const wanted = { kind: 'phenotype', locusId: 'b', phenotypeId: 'blond' } as const;
    expect(lookFor(wanted, fish, undefined).answer).toBe(answer);
  });
});
