import { addFractions, ONE, ZERO, type Fraction } from '../fraction.js';
import type { GenotypeSet } from '../genotype.js';
import type { Locus, LocusId, PhenotypeId } from '../locus.js';
import { cross } from '../cross/cross.js';
import type { CrossExpectation } from '../cross/cross-types.js';
import { expectPhenotypes, lociWith, type PairExpectationOptions } from './expect-phenotypes.js';

/** What is to be seen, all of it on one fish: phenotype by locus. */
export type Look = Readonly<Record<LocusId, PhenotypeId>>;

/** The loci on which it hangs whether something at `ids` is to be seen: they themselves, and those that hide them. */
export function lociBehind(ids: readonly LocusId[], own?: readonly Locus[]): LocusId[] {
  const known = lociWith(own);
  const hiders = ids.flatMap(
    (id) => known.find((locus) => locus.id === id)?.hiddenBy.map((gate) => gate.locus) ?? [],
  );
  return [...new Set([...ids, ...hiders])];
}

const only = (set: GenotypeSet, ids: readonly LocusId[]): GenotypeSet =>
  Object.fromEntries(
    ids.flatMap((id) => {
      const genotype = set[id];
      return genotype === undefined ? [] : [[id, genotype] as const];
    }),
  );

function shareOf(expectation: CrossExpectation, look: Look): Fraction {
  let sum = ZERO;
  for (const { parts, probability } of expectation.classes) {
    const fits = parts.every(({ loci, phenotype }) =>
      loci.every((id) => look[id] === undefined || look[id] === phenotype),
    );
    if (fits) sum = addFractions(sum, probability);
  }
  return sum;
}

/**
 * The share of a pair's living young on which a look is to be *seen*: the classes of {@link expectPhenotypes} that show all of
 * it, those hidden by another locus not counted. Null when a genotype that matters is not known; 0 all the same when one part of
 * the look cannot come, and when no young live.
 *
 * @throws HeredityError as {@link expectPhenotypes}.
 * @example expectLook({ al: 'al/al', m: 'M/m' }, { al: 'al/al', m: 'M/m' }, { m: 'melano' }) // 0: all are albino
 */
export function expectLook(
  sire: GenotypeSet,
  dam: GenotypeSet,
  look: Look,
  options: PairExpectationOptions = {},
): Fraction | null {
  const wanted = Object.keys(look);
  const behind = lociBehind(wanted, options.loci);
  const [ofSire, ofDam] = [only(sire, behind), only(dam, behind)];
  const { expectation, computed, notComputed } = expectPhenotypes(ofSire, ofDam, options);
  if (notComputed.some((one) => one.reason === 'no-young-live')) return ZERO;
  const share = expectation ? shareOf(expectation, look) : ONE;
  if (share.numerator === 0n || wanted.every((id) => computed.includes(id))) return share;
  const known = lociWith(options.loci);
  // Hidden or not, what does not come cannot be seen.
  const cannotCome = notComputed.some(({ locus: id, reason }) => {
    const locus = known.find((one) => one.id === id);
    const phenotype = look[id];
    if (reason !== 'may-be-hidden' || !locus || phenotype === undefined) return false;
    const alone = cross({ sire: ofSire, dam: ofDam }, [{ ...locus, hiddenBy: [] }], {});
    return shareOf(alone, { [id]: phenotype }).numerator === 0n;
  });
  return cannotCome ? ZERO : null;
}
