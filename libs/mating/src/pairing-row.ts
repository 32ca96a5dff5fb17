import { expectPhenotypes, type Locus } from '@linewright/heredity';
import { nameOf, type PairingCandidate } from './candidate.js';
import { wishLabel, type ClassWish } from './class-wishes.js';
import { closeRelationship } from './close-relationship.js';
import { commonAncestors, type CommonAncestry } from './common-ancestors.js';
import { inbreedingBand } from './inbreeding-bands.js';
import { midParent } from './mid-parent.js';
import type { PairingJudge } from './pairing-judge.js';
import { pairingReasons } from './pairing-reasons.js';
import type { LocusShares, RankedPairing, WishOutcome } from './ranked-pairing.js';
import type { PairAt } from './worth/pair-worths.js';
import { gravest } from './reason.js';

/** Ancestors named in a row, and classes given in it at most. */
const ANCESTORS_IN_ROW = 3;
/** Of the fish that lead to a common ancestor the youngest are looked at: all of them in most lines, and a row says where not. */
const LEADING_IN_ROW = 700;
const CLASSES_IN_ROW = 200;

/** Works out the whole row of male `m` by female `f`, its worth held against that of `best` where it is given. */
export function pairingRow(
  judge: PairingJudge,
  m: number,
  f: number,
  place: number,
  best?: PairAt,
): RankedPairing {
  const sire = judge.males[m] as PairingCandidate;
  const dam = judge.females[f] as PairingCandidate;
  const [sireIndex, damIndex] = [judge.maleIndex[m] ?? 0, judge.femaleIndex[f] ?? 0];
  const inbreeding = judge.inbreeding(m, f);
  const warnings = judge.warnings(m, f);
  const severity = gravest(warnings);
  const byLocus = sharesByLocus(judge, m, f);
  const row: Omit<RankedPairing, 'reasons'> = {
    place,
    sireId: sire.id,
    damId: dam.id,
    sireName: nameOf(sire),
    damName: nameOf(dam),
    inbreeding,
    basis: judge.basis(m, f),
    band: inbreedingBand(inbreeding),
    relationship: closeRelationship(judge.pedigree, sireIndex, damIndex),
    commonAncestry: ancestryOf(judge, sireIndex, damIndex, inbreeding),
    knownAncestry: { sire: judge.maleAncestry[m] ?? 0, dam: judge.femaleAncestry[f] ?? 0 },
    byLocus,
    expected: expectedClasses(sire, dam, byLocus, judge.input.loci),
    wishes: [
      ...outcomes(judge, 'wanted', judge.input.wanted, m, f),
      ...outcomes(judge, 'unwanted', judge.input.unwanted, m, f),
    ],
    traits: judge.traits.map(({ wish, males, females, spread }) => {
      return midParent(wish, males[m] ?? null, females[f] ?? null, spread);
    }),
    pastPairings: judge.pastPairings(m, f),
    warnings,
    severity,
    discouraged: severity === 'stop',
    worth: judge.worth.of(m, f, best),
  };
  return { ...row, reasons: pairingReasons(row, judge, judge.settingsOf(m, f)) };
}

function ancestryOf(
  judge: PairingJudge,
  sire: number,
  dam: number,
  inbreeding: number,
): CommonAncestry {
  if (inbreeding === 0) return { ancestors: [], count: 0, accountedFor: 0, complete: true };
  return commonAncestors(
    judge.pedigree,
    judge.allInbreeding(),
    sire,
    dam,
    ANCESTORS_IN_ROW,
    LEADING_IN_ROW,
  );
}

function outcomes(
  judge: PairingJudge,
  kind: WishOutcome['kind'],
  wishes: readonly ClassWish[] | undefined,
  m: number,
  f: number,
): WishOutcome[] {
  return (wishes ?? []).map((wish) => ({
    label: wishLabel(wish),
    kind,
    share: judge.wishes.share(wish, m, f),
  }));
}

function sharesByLocus(judge: PairingJudge, m: number, f: number): LocusShares[] {
  const [ofSire, ofDam] = [judge.males[m]?.genotypes ?? {}, judge.females[f]?.genotypes ?? {}];
  const loci = Object.keys(ofSire).filter((locus) => locus in ofDam);
  return loci.toSorted().flatMap((locusId): LocusShares[] => {
    const shares = judge.wishes.at(locusId, m, f);
    if (!shares) return [];
    return [
      { locusId, shares: Array.from(shares, ([phenotypeId, share]) => ({ phenotypeId, share })) },
    ];
  });
}

/** Classes over all loci known on both sides, unless they are more than a row can carry. */
function expectedClasses(
  sire: PairingCandidate,
  dam: PairingCandidate,
  byLocus: readonly LocusShares[],
  loci: readonly Locus[] | undefined,
): RankedPairing['expected'] {
  const classes = byLocus.reduce((product, { shares }) => product * shares.length, 1);
  if (classes > CLASSES_IN_ROW) {
    return { expectation: null, computed: [], notComputed: [], tooManyClasses: true };
  }
  const options = loci ? { loci } : {};
  return {
    ...expectPhenotypes(sire.genotypes ?? {}, dam.genotypes ?? {}, options),
    tooManyClasses: false,
  };
}
