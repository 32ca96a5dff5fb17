import { NO_PARENT, type Pedigree } from '@linewright/pedigree';

/** A close relationship between a sire and a dam that can be said in a few words. */
export type CloseRelationship =
  | 'sire-and-daughter'
  | 'dam-and-son'
  | 'full-siblings'
  | 'half-siblings'
  | 'grandsire-and-granddaughter'
  | 'granddam-and-grandson'
  | 'uncle-and-niece'
  | 'aunt-and-nephew'
  | 'half-uncle-and-niece'
  | 'half-aunt-and-nephew'
  | 'first-cousins';

/** Words for each relationship. */
export const RELATIONSHIP_TEXT: Readonly<Record<CloseRelationship, string>> = {
  'sire-and-daughter': 'the male is the sire of the female',
  'dam-and-son': 'the female is the dam of the male',
  'full-siblings': 'brother by sister',
  'half-siblings': 'half brother by half sister',
  'grandsire-and-granddaughter': 'the male is a grandsire of the female',
  'granddam-and-grandson': 'the female is a granddam of the male',
  'uncle-and-niece': "the male is a full brother of one of the female's parents",
  'aunt-and-nephew': "the female is a full sister of one of the male's parents",
  'half-uncle-and-niece': "the male is a half brother of one of the female's parents",
  'half-aunt-and-nephew': "the female is a half sister of one of the male's parents",
  'first-cousins': 'first cousins',
};

/**
 * The closest relationship between a sire and a dam among those that have a plain name, or `null`.
 *
 * Looks two generations up and no further, and names one relationship only: the pair may be related through other
 * ancestors as well, and the brood's F counts them all. Cost: constant.
 */
export function closeRelationship(
  p: Pedigree,
  sire: number,
  dam: number,
): CloseRelationship | null {
  const sireParents = parentsOf(p, sire);
  const damParents = parentsOf(p, dam);
  if (damParents.includes(sire)) return 'sire-and-daughter';
  if (sireParents.includes(dam)) return 'dam-and-son';
  const shared = sharedParents(p, sire, dam);
  if (shared === 2) return 'full-siblings';
  if (shared === 1) return 'half-siblings';
  if (damParents.some((parent) => parentsOf(p, parent).includes(sire)))
    return 'grandsire-and-granddaughter';
  if (sireParents.some((parent) => parentsOf(p, parent).includes(dam)))
    return 'granddam-and-grandson';
  const asUncle = Math.max(0, ...damParents.map((parent) => sharedParents(p, sire, parent)));
  if (asUncle === 2) return 'uncle-and-niece';
  const asAunt = Math.max(0, ...sireParents.map((parent) => sharedParents(p, dam, parent)));
  if (asAunt === 2) return 'aunt-and-nephew';
  if (asUncle === 1) return 'half-uncle-and-niece';
  if (asAunt === 1) return 'half-aunt-and-nephew';
  const cousins = sireParents.some((a) => damParents.some((b) => sharedParents(p, a, b) === 2));
  return cousins ? 'first-cousins' : null;
}

function parentsOf(p: Pedigree, fish: number): number[] {
  return [p.sire[fish] ?? NO_PARENT, p.dam[fish] ?? NO_PARENT].filter(
    (parent) => parent !== NO_PARENT,
  );
}

function sharedParents(p: Pedigree, a: number, b: number): number {
  const others = parentsOf(p, b);
  return parentsOf(p, a).filter((parent) => others.includes(parent)).length;
}
