import type { PedigreeRow } from './explicit-pedigree.js';

/**
 * A core of the Spanish Habsburgs: individual, sire, dam. Parentage as in the public genealogies used by Alvarez G, Ceballos FC &
 * Quinteiro C (2009) PLoS ONE 4:e5174 (citation from memory), cut to 22 matings so that every path can be listed.
 * Basis: computed reference, no printed number: this core ends earlier than the pedigree of that paper, so that its F is lower
 * than the one printed there.
 */
export const habsburgRows: readonly PedigreeRow[] = [
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
];
