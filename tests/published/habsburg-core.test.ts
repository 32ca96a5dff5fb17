// Charles II of Spain: small enough to list all paths and full of loops. Source and basis: habsburg-rows.ts.
import {
  coancestry,
  inbreedingCoefficients,
  inbreedingPathsOf,
  tabularInbreeding,
  tabularRelationship,
  tracedInbreeding,
} from '@linewright/kinship';
import { describe, expect, it } from 'vitest';
import { explicitPedigree } from './explicit-pedigree.js';
import { habsburgRows } from './habsburg-rows.js';

const pedigree = explicitPedigree(habsburgRows);
const charles = pedigree.indexOf('Charles II of Spain');

describe('Habsburg core', () => {
  it('gives one F for Charles II by table, level pass, trace, coancestry and paths', () => {
    const table = tabularRelationship(pedigree);
    const f = table[charles * pedigree.size + charles]! - 1;
    expect(f).toBeGreaterThan(0.15);
    expect(f).toBeLessThan(0.254);
    expect(inbreedingCoefficients(pedigree)[charles]).toBe(f);
    expect(tabularInbreeding(pedigree)[charles]).toBe(f);
    expect(tracedInbreeding(pedigree)[charles]).toBe(f);
    expect(coancestry(pedigree, pedigree.sire[charles]!, pedigree.dam[charles]!)).toBe(f);
    const { paths, complete } = inbreedingPathsOf(pedigree, charles, { limit: Infinity });
    expect(complete).toBe(true);
    expect(paths.reduce((sum, path) => sum + path.contribution, 0)).toBeCloseTo(f, 14);
    expect(paths.length).toBeGreaterThan(10);
  });
});
