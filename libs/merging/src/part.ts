import { compareStamps, joinStamps, type Stamp } from './stamp.js';

/** One value that a part of a record was given, and what was known when it was. */
export interface Version {
  /** The value, written in the one way of its format: equal texts are equal values. */
  readonly text: string;
  readonly stamp: Stamp;
}

/**
 * What a part of a record may be: the versions that no other replaces, in one order. With one text among them the part is settled;
 * with several it was changed in several places at once, and a person decides.
 */
export type Part = readonly Version[];

const inOneOrder = ({ text, stamp }: Version): string =>
  JSON.stringify([text, joinStamps([stamp])]);

/**
 * All that two installs hold of a part, less what is replaced. In any order, any number of times, the same comes out: it is the set of
 * the greatest versions of a partial order. Versions of one stamp and two texts, which only a copied install can make, stand both.
 *
 * Cost: the product of the numbers of versions, nearly always 1 by 1.
 */
export const mergeParts = (a: Part, b: Part): Part => {
  const all = new Map([...a, ...b].map((version) => [inOneOrder(version), version]));
  const replaced = ({ stamp }: Version): boolean =>
    [...all.values()].some((other) => compareStamps(other.stamp, stamp) === 'newer');
  return [...all]
    .filter(([, version]) => !replaced(version))
    .sort(([x], [y]) => (x < y ? -1 : 1))
    .map(([, version]) => version);
};

/** Whether all that stands says the same. */
export const isSettled = (part: Part): boolean => new Set(part.map(({ text }) => text)).size <= 1;

/** A text given by one who saw all versions of the part: it replaces them. */
export const replacing = (part: Part, text: string, own: Stamp): Part => [
  { text, stamp: joinStamps([...part.map(({ stamp }) => stamp), own]) },
];

/**
 * What a place shows of a part: what it showed before as long as that stands, else the first of what does.
 */
export const standingText = (part: Part, before: string | undefined): string | undefined =>
  part.some(({ text }) => text === before) ? before : part[0]?.text;
