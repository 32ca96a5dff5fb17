import { plainHeader } from './roles.js';

/**
 * What files of one shape have in common: the names of their columns, in any order and however they are written. A pedigree that is
 * exported from the same sheet every month has the same shape.
 */
export const shapeOf = (header: readonly string[]): string =>
  header.map(plainHeader).toSorted().join('|');
