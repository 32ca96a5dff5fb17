import type { InbreedingBasis } from '@linewright/pedigree';
import { linesOf, nameOf, type PairingCandidate, type PastPairing } from './candidate.js';
import {
  leastOr,
  percent,
  SAID_OF_LINE,
  type OwnWarningCode,
  type PairingWarning,
  type Severity,
} from './reason.js';
import { DEFAULT_SETTINGS, type PairingSettings } from './settings.js';

/** What a rule may look at in one pairing. */
export interface PairFacts {
  readonly sire: PairingCandidate;
  readonly dam: PairingCandidate;
  /** F of the brood. */
  readonly inbreeding: number;
  /** Whether that F is known, or the least that it can be. */
  readonly basis: Exclude<InbreedingBasis, 'unknown'>;
  /** Known share of ancestors, the lesser-known side. */
  readonly leastKnownAncestry: number;
  /** Earlier pairings of the same two fish that failed. */
  readonly failures: readonly PastPairing[];
}

/** A rule on a pair: whether it speaks, cheaply, and what it says, when asked. */
export interface PairRule {
  readonly code: OwnWarningCode;
  severity(facts: PairFacts, settings: PairingSettings): Severity | null;
  describe(facts: PairFacts, settings: PairingSettings): Omit<PairingWarning, 'code' | 'severity'>;
}

/** The rules on pairs, in the order their warnings are given. */
export const PAIR_RULES: readonly PairRule[] = [
  {
    code: 'ABOVE_CEILING',
    // A sum of powers of two may come out a rounding above the ceiling that it equals.
    severity: ({ inbreeding }, { inbreedingCeiling }) =>
      inbreeding > inbreedingCeiling + 1e-12 ? 'caution' : null,
    describe: ({ inbreeding, basis }, { inbreedingCeiling }) => ({
      concerns: 'brood',
      text: `The brood's F of ${leastOr(basis)}${percent(inbreeding)} is above the guide of ${percent(inbreedingCeiling)}.`,
      figures: { inbreeding, ceiling: inbreedingCeiling },
      basis:
        inbreedingCeiling === DEFAULT_SETTINGS.inbreedingCeiling
          ? 'built-in guide, no source: the F of young of a half-brother and half-sister from unrelated stock'
          : SAID_OF_LINE,
    }),
  },
  {
    code: 'UNKNOWN_ANCESTRY',
    severity: ({ basis, leastKnownAncestry }, { knownAncestryFrom }) =>
      basis === 'at-least' && leastKnownAncestry < knownAncestryFrom ? 'note' : null,
    describe: ({ leastKnownAncestry }, { ancestryGenerations, knownAncestryFrom }) => ({
      concerns: 'pair',
      text: `Only ${percent(leastKnownAncestry)} of the ancestors in ${String(ancestryGenerations)} generations are known on the lesser-known side: F may be higher than shown.`,
      figures: {
        known: leastKnownAncestry,
        from: knownAncestryFrom,
        generations: ancestryGenerations,
      },
      basis: 'computed',
    }),
  },
  {
    code: 'SAME_SPAWN',
    severity: ({ sire, dam }) =>
      sire.spawnId !== undefined && sire.spawnId === dam.spawnId ? 'note' : null,
    describe: ({ sire, dam }) => ({
      concerns: 'pair',
      text: `${nameOf(sire)} and ${nameOf(dam)} come from the same spawn.`,
      figures: { spawnId: sire.spawnId ?? '' },
      basis: 'computed',
    }),
  },
  {
    code: 'FAILED_BEFORE',
    severity: ({ failures }) => (failures.length > 0 ? 'caution' : null),
    describe: ({ failures }) => {
      const last = failures.at(-1);
      const when = last?.on === undefined ? '' : ` on ${last.on}`;
      const why = last?.reason === undefined ? '' : `: ${last.reason}`;
      return {
        concerns: 'pair',
        text: `These two were paired before${when} and it failed${why}.`,
        figures: { failures: failures.length, ...(last?.on === undefined ? {} : { on: last.on }) },
        basis: 'computed',
      };
    },
  },
  {
    code: 'BETWEEN_LINES',
    severity: ({ sire, dam }) => (linesOf(sire, dam) === 'different' ? 'caution' : null),
    describe: ({ sire, dam }) => {
      const [ofSire, ofDam] = [sire.line?.name ?? '', dam.line?.name ?? ''];
      return {
        concerns: 'brood',
        text: `A cross between lines, ${ofSire} and ${ofDam}: what each was bred for may be lost in the first brood, and colours, fins and shape split up in the next (F2), most of which fits neither line. Take it as a trial: raise one brood, compare it with the lines, and keep both going beside it.`,
        figures: { sireLine: ofSire, damLine: ofDam },
        basis: 'common practice, no source',
      };
    },
  },
  {
    code: 'SIZE_MISMATCH',
    severity: ({ sire, dam }, { bodyLengthRatio }) => {
      const ratio = lengthRatio(sire, dam);
      if (!bodyLengthRatio || ratio === null) return null;
      return ratio < bodyLengthRatio.least || ratio > bodyLengthRatio.most ? 'caution' : null;
    },
    describe: ({ sire, dam }) => ({
      concerns: 'pair',
      text: `Body lengths of ${String(sire.bodyLength)} mm (male) and ${String(dam.bodyLength)} mm (female) lie outside the limits given.`,
      figures: {
        sireLength: sire.bodyLength ?? 0,
        damLength: dam.bodyLength ?? 0,
        ratio: lengthRatio(sire, dam) ?? 0,
      },
      basis: SAID_OF_LINE,
    }),
  },
];

function lengthRatio(sire: PairingCandidate, dam: PairingCandidate): number | null {
  if (sire.bodyLength === undefined || dam.bodyLength === undefined || sire.bodyLength <= 0)
    return null;
  return dam.bodyLength / sire.bodyLength;
}
