import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { findLocus } from '../catalogue/catalogue.js';
import { findContradiction } from './contradiction.js';
import { carrierModel } from './carrier-model.js';
import type { CarrierEvidence } from './evidence.js';

const even = { general: { alleles: { Bl: '1/2', bl: '1/2' } } } as const;
const seen = (fish: string, phenotype: string): CarrierEvidence => ({
  kind: 'phenotype',
  id: `${fish} scored`,
  fish,
  phenotype,
});

describe('findContradiction', () => {
  const pedigree = buildPedigree([
    { id: 'old male' },
    { id: 'old female' },
    { id: 'sire', sire: 'old male', dam: 'old female' },
    { id: 'dam' },
    { id: 'young', sire: 'sire', dam: 'dam' },
    { id: 'sister', sire: 'sire', dam: 'dam' },
    { id: 'stranger' },
  ]);
  const locus = findLocus('bl');

  it('finds a steel parent of a turquoise among records that bear nothing on it', () => {
    const evidence = [
      seen('stranger', 'royal'),
      seen('old male', 'royal'),
      seen('sire', 'steel'),
      seen('sister', 'steel'),
      seen('dam', 'steel'),
      seen('young', 'turquoise'),
    ];
    // A turquoise has one allele from each parent, so either steel parent by itself contradicts it.
    const found = findContradiction({ pedigree, locus, evidence, founders: even });
    expect(found?.smallest).toBe(true);
    expect(found?.records).toHaveLength(2);
    expect(found?.records.map((one) => one.id)).toContain('young scored');
    expect(found?.parentages).toContain('young: sire x dam');
    expect(found?.explanation).toContain('turquoise');
    expect(found?.remedies.length).toBe(3);
  });

  it('says when a founder frequency of 0 is part of the clash', () => {
    const evidence = [seen('stranger', 'royal'), seen('old male', 'steel')];
    const none = { general: { alleles: { Bl: 0, bl: 1 } } };
    const found = findContradiction({ pedigree, locus, evidence, founders: none });
    expect(found?.records.map((one) => one.id)).toEqual(['stranger scored']);
    expect(found?.restsOnFounders).toBe(true);
    expect(found?.explanation).toMatch(/^This cannot be true .* given the frequencies/);
    expect(found?.remedies.at(-1)).toMatch(/frequency of 0/);
    const plain = findContradiction({
      pedigree,
      locus,
      evidence: [seen('sire', 'steel'), seen('young', 'turquoise')],
      founders: even,
    });
    expect(plain?.restsOnFounders).toBe(false);
  });

  it('names a brood that its parents cannot have had', () => {
    const evidence: CarrierEvidence[] = [
      { kind: 'genotype', id: 'g', fish: 'sire', genotype: 'bl/bl' },
      { kind: 'genotype', id: 'h', fish: 'dam', genotype: 'bl/bl' },
      { kind: 'brood', id: 'b', sire: 'sire', dam: 'dam', counts: { steel: 40, royal: 1 } },
    ];
    const found = findContradiction({ pedigree, locus, evidence, founders: even });
    expect(found?.records.map((one) => one.id)).toEqual(['g', 'h', 'b']);
    expect(found?.smallest).toBe(true);
    // With a little mis-scoring the same records are merely unlikely.
    expect(() =>
      carrierModel({ pedigree, locus, evidence, founders: even, misScoring: 0.02 }),
    ).not.toThrow();
    expect(() => carrierModel({ pedigree, locus, evidence, founders: even })).toThrowError(
      expect.objectContaining({ code: 'EVIDENCE_IMPOSSIBLE' }) as Error,
    );
  });

  it('prefers a clash of two over a clash of three found first', () => {
    const evidence: CarrierEvidence[] = [
      { kind: 'genotype', id: 'g', fish: 'sire', genotype: 'bl/bl' },
      { kind: 'genotype', id: 'h', fish: 'dam', genotype: 'bl/bl' },
      { kind: 'brood', id: 'b', sire: 'sire', dam: 'dam', counts: { steel: 40, royal: 1 } },
      seen('stranger', 'steel'),
      { kind: 'genotype', id: 's', fish: 'stranger', genotype: 'Bl/-' },
    ];
    const found = findContradiction({ pedigree, locus, evidence, founders: even });
    expect(found?.records.map((one) => one.id)).toEqual(['stranger scored', 's']);
    expect(found?.smallest).toBe(true);
  });

  it('returns null when all records can be true', () => {
    const evidence = [seen('sire', 'royal'), seen('dam', 'steel'), seen('young', 'royal')];
    expect(findContradiction({ pedigree, locus, evidence, founders: even })).toBeNull();
    expect(findContradiction({ pedigree, locus, evidence: [], founders: even })).toBeNull();
  });

  it('finds one that needs the loop: a grandparent all of whose ways down are steel', () => {
    const loop = buildPedigree([
      { id: 'a' },
      { id: 'b' },
      { id: 'c', sire: 'a', dam: 'b' },
      { id: 'd', sire: 'a', dam: 'b' },
      { id: 'e', sire: 'c', dam: 'd' },
    ]);
    const evidence = [seen('a', 'steel'), seen('b', 'steel'), seen('e', 'royal')];
    const found = findContradiction({ pedigree: loop, locus, evidence, founders: even });
    expect(found?.records).toHaveLength(3);
  });
});
