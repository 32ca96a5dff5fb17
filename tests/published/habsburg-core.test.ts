/**
 * Charles II of Spain: a small core of the Habsburg pedigree, full of loops and small enough to list all paths.
 *
 * Parentage as in the public genealogies used by Alvarez G, Ceballos FC & Quinteiro C (2009) PLoS ONE 4:e5174. The citation is
 * from memory. Basis: computed reference, no printed number: this core is cut off earlier than the pedigree of that paper, so that its F is lower than the
 * one printed there. The methods are checked against each other.
 */
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

const pedigree = explicitPedigree([
  ['Charles II of Spain', 'Philip IV of Spain', 'Mariana of Austria'],
  ['Philip IV of Spain', 'Philip III of Spain', 'Margaret of Austria 1584'],
  ['Mariana of Austria', 'Ferdinand III HRE', 'Maria Anna of Spain 1606'],
  ['Maria Anna of Spain 1606', 'Philip III of Spain', 'Margaret of Austria 1584'],
  ['Ferdinand III HRE', 'Ferdinand II HRE', 'Maria Anna of Bavaria 1574'],
  ['Ferdinand II HRE', 'Charles II of Inner Austria', 'Maria Anna of Bavaria 1551'],
  ['Margaret of Austria 1584', 'Charles II of Inner Austria', 'Maria Anna of Bavaria 1551'],
  ['Maria Anna of Bavaria 1574', 'William V of Bavaria', 'Renata of Lorraine'],
  ['William V of Bavaria', 'Albert V of Bavaria', 'Anna of Austria 1528'],
  ['Maria Anna of Bavaria 1551', 'Albert V of Bavaria', 'Anna of Austria 1528'],
  ['Anna of Austria 1528', 'Ferdinand I HRE', 'Anna of Bohemia and Hungary'],
  ['Charles II of Inner Austria', 'Ferdinand I HRE', 'Anna of Bohemia and Hungary'],
  ['Renata of Lorraine', 'Francis I of Lorraine', 'Christina of Denmark'],
  ['Christina of Denmark', 'Christian II of Denmark', 'Isabella of Austria 1501'],
  ['Isabella of Austria 1501', 'Philip I of Castile', 'Joanna of Castile'],
  ['Philip III of Spain', 'Philip II of Spain', 'Anna of Austria 1549'],
  ['Anna of Austria 1549', 'Maximilian II HRE', 'Maria of Spain 1528'],
  ['Maximilian II HRE', 'Ferdinand I HRE', 'Anna of Bohemia and Hungary'],
  ['Maria of Spain 1528', 'Charles I of Spain', 'Isabella of Portugal 1503'],
  ['Philip II of Spain', 'Charles I of Spain', 'Isabella of Portugal 1503'],
  ['Charles I of Spain', 'Philip I of Castile', 'Joanna of Castile'],
  ['Ferdinand I HRE', 'Philip I of Castile', 'Joanna of Castile'],
]);
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
