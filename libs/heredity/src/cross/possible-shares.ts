import {
  fraction,
  fractionToNumber,
  multiplyFractions,
  ONE,
  ZERO,
  type Fraction,
} from '../fraction.js';
import { assertAtMost, MOST } from '../limits.js';
import type { LocusReference } from '../locus.js';
import { buildGroups, resolveLoci } from './cross.js';
import type { CrossOptions, CrossParents, PhenotypeClass } from './cross-types.js';
import { classesOfPair, pairsThatMayBe, uncertainLoci, type Group } from './groups.js';

/** What a class may be of a brood: its share among the living young of a pair that the two may be, and how likely that is. */
export interface PossibleShare {
  readonly weight: number;
  readonly probability: Fraction;
}

/** The parts of a class that belong to one group of loci, as text. */
const keyAt = (group: Group, parts: PhenotypeClass['parts']): string =>
  parts
    .filter((part) => part.loci.some((id) => group.loci.some((locus) => locus.id === id)))
    .map((part) => `${part.loci.join('+')}=${part.phenotype}`)
    .toSorted()
    .join('|');

const reduced = ({ numerator, denominator }: Fraction): Fraction =>
  fraction(numerator, denominator);

function merged(shares: readonly PossibleShare[]): PossibleShare[] {
  const found = new Map<string, PossibleShare>();
  for (const one of shares) {
    const key = `${String(one.probability.numerator)}/${String(one.probability.denominator)}`;
    found.set(key, { ...one, weight: one.weight + (found.get(key)?.weight ?? 0) });
  }
  return [...found.values()];
}

/** By class of the group, the shares it may be of a brood's living young. */
function sharesIn(group: Group): (key: string) => PossibleShare[] {
  const pairs = pairsThatMayBe(group, uncertainLoci(group).all).flatMap(({ weight, fixed }) => {
    const found = classesOfPair(group, fixed);
    if (!found) return [];
    return [
      {
        weight: fractionToNumber(weight),
        shares: new Map(found.classes.map((one) => [keyAt(group, one.parts), one.share])),
      },
    ];
  });
  const living = pairs.reduce((sum, one) => sum + one.weight, 0);
  return (key) =>
    merged(
      pairs.map(({ weight, shares }) => ({
        weight: weight / living,
        probability: reduced(shares.get(key) ?? ZERO),
      })),
    );
}

/**
 * For parents that are uncertain: what share of the brood each class may be, pair by pair that the two may be, with equal
 * shares put together. The mean of these is the class's probability in `cross`; how many to raise hangs on all of them, since a
 * brood comes from one pair. Parents and loci are treated as independent of one another.
 *
 * @throws HeredityError as `cross`; `TOO_LARGE` (over 10,000 pairs that loci acting together may be, or as many shares).
 * Cost: pairs that may be times joint genotypes, for each group of loci that act together.
 */
export function possibleShares(
  parents: CrossParents,
  references: readonly LocusReference[],
  options: CrossOptions = {},
): (phenotypeClass: Pick<PhenotypeClass, 'parts'>) => PossibleShare[] {
  const groups = buildGroups(parents, resolveLoci(references), options).map((group) => ({
    group,
    sharesOf: sharesIn(group),
  }));
  return ({ parts }) => {
    let list: PossibleShare[] = [{ weight: 1, probability: ONE }];
    for (const { group, sharesOf } of groups) {
      const own = sharesOf(keyAt(group, parts));
      assertAtMost(
        list.length * own.length,
        MOST.possiblePairs,
        'shares that the class may be',
        'Look at fewer uncertain loci at a time.',
      );
      list = merged(
        list.flatMap((one) =>
          own.map((other) => ({
            weight: one.weight * other.weight,
            probability: multiplyFractions(one.probability, other.probability),
          })),
        ),
      );
    }
    return list;
  };
}
