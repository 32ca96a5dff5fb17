import { coancestryBlock } from '@linewright/kinship';
import type { Locus } from '@linewright/heredity';
import type { Pedigree } from '@linewright/pedigree';
import { ancestryKnowledge } from './ancestry-knowledge.js';
import { dayNumber } from './calendar.js';
import { nameOf, type PairingCandidate } from './candidate.js';
import { readinessWarnings } from './fish-readiness.js';
import { average, indicesOf, LineFigures } from './outcross/line-figures.js';
import type { OutcrossFacts } from './outcross/outcross-facts.js';
import { outcrossCautions, outcrossReasons } from './outcross-words.js';
import { GenotypeWarnings } from './genotype-warnings.js';
import {
  gravest,
  severityRank,
  type PairingWarning,
  type Reason,
  type Severity,
} from './reason.js';
import { completeSettings, type PairingSettings, type PairingSettingsInput } from './settings.js';
import { lookFor, type WantedInPartner } from './wanted-in-partner.js';

/** A line that looks for new blood, and the fish that might bring it. */
export interface OutcrossInput {
  readonly pedigree: Pedigree;
  /** The line's fish in use. */
  readonly line: readonly PairingCandidate[];
  /** Fish that might be partners; those that are in `line` are passed over. */
  readonly candidates: readonly PairingCandidate[];
  readonly wanted?: readonly WantedInPartner[];
  /** ISO date. */
  readonly asOf: string;
  readonly settings?: PairingSettingsInput;
  /** Ids of fish whose unknown parents are known to be unrelated to all others. */
  readonly unrelatedOrigin?: readonly string[];
  /** The person's own loci, added to the catalogue. */
  readonly loci?: readonly Locus[];
  /** How many suggestions; all when left out. */
  readonly limit?: number;
}

/** One possible partner for a line, with what speaks for it and what to beware of. */
export interface OutcrossSuggestion extends OutcrossFacts {
  readonly reasons: readonly Reason[];
  /** Gravest first. */
  readonly cautions: readonly PairingWarning[];
  readonly severity: Severity | null;
}

/**
 * Partners for a line: those with most of what is wanted first, then those least related to the line.
 *
 * With P the partner, L its mate in the line and K another fish of the line, and theta for coancestry, the first cross has
 * F = theta(P, L), and a young of it put to K has F = (theta(P, K) + theta(L, K)) / 2, here averaged over all L of the
 * other sex than P and all K other than L. Put back to L itself it has (theta(P, L) + (1 + F_L) / 2) / 2. A young of the return put to a third
 * fish M of the line has F = (theta(P, M) + theta(L, M)) / 4 + theta(K, M) / 2, averaged over all M other than L and K as well.
 *
 * A partner of which nothing is recorded looks unrelated; `basis`, `knownAncestry` and a caution say so.
 *
 * Throws `MatingError`: `MATING_TOO_FEW_FISH` for an empty line, `MATING_UNKNOWN_FISH`, `MATING_BAD_DATE`,
 * `MATING_BAD_SETTING`; `HeredityError` for an unknown locus. Cost: coancestry of the line with itself and the candidates.
 */
export function suggestOutcrosses(input: OutcrossInput): readonly OutcrossSuggestion[] {
  const line = new LineFigures(input.pedigree, input.line);
  dayNumber(input.asOf);
  const settings = completeSettings(input.settings);
  const inLine = new Set(input.line.map(({ id }) => id));
  const partners = input.candidates.filter(({ id }) => !inLine.has(id));
  const { known, open } = ancestryKnowledge(
    input.pedigree,
    settings.ancestryGenerations,
    input.unrelatedOrigin,
  );
  const openLine = line.indices.some((index) => open[index] === 1);
  const indices = indicesOf(input.pedigree, partners);
  const block = coancestryBlock(input.pedigree, indices, line.indices);
  const found = partners.map((fish, k) => {
    const withLine = block.subarray(k * line.size, (k + 1) * line.size);
    const index = indices[k] ?? 0;
    const origin = {
      knownAncestry: known[index] ?? 0,
      basis: openLine || open[index] === 1 ? 'at-least' : 'known',
      basisWithinLine: openLine ? 'at-least' : 'known',
    } as const;
    return { fish, facts: { ...factsOf(input, line, fish, withLine), ...origin } };
  });
  const genotypeWarnings = new GenotypeWarnings();
  return found
    .toSorted((a, b) => bestFirst(a.facts, b.facts))
    .slice(0, input.limit)
    .map(({ fish, facts }) => {
      const cautions = [
        ...ownWarnings(fish, input.asOf, settings),
        ...mateWarnings(fish, line.find(facts.firstCross?.bestMateId), genotypeWarnings),
        ...outcrossCautions(facts, settings),
      ].toSorted((a, b) => severityRank(b.severity) - severityRank(a.severity));
      const reasons = outcrossReasons(facts, (id) => nameOf(line.find(id) ?? fish), settings);
      return { ...facts, reasons, cautions, severity: gravest(cautions) };
    });
}

function factsOf(
  input: OutcrossInput,
  line: LineFigures,
  fish: PairingCandidate,
  withLine: Float64Array,
): Omit<OutcrossFacts, 'knownAncestry' | 'basis' | 'basisWithinLine'> {
  const mates = line.matesOf(fish);
  const closest = withLine.reduce(
    (best, value, k) => (value > (withLine[best] ?? 0) ? k : best),
    0,
  );
  const wanted = (input.wanted ?? []).map((thing) => lookFor(thing, fish, input.loci));
  return {
    fishId: fish.id,
    fishName: nameOf(fish),
    meanCoancestry: average(withLine),
    closest: { id: line.fish[closest]?.id ?? '', coancestry: withLine[closest] ?? 0 },
    firstCross: line.firstCross(withLine, mates),
    returnToLine: line.returnToLine(withLine, mates),
    returnTwice: line.returnTwice(withLine, mates),
    returnToParent: line.returnToParent(withLine, mates),
    withinLine: line.withinLine,
    wanted,
    has: wanted.filter(({ answer }) => answer === 'yes').length,
    mayHave: wanted.filter(({ answer }) => answer === 'possible').length,
  };
}

/** Age and rest; a fish that is not sexed is not judged on them. */
function ownWarnings(
  fish: PairingCandidate,
  asOf: string,
  settings: PairingSettings,
): PairingWarning[] {
  if (fish.sex === 'unknown') return [];
  return readinessWarnings(fish, fish.sex === 'male' ? 'sire' : 'dam', asOf, settings);
}

/** Genotype warnings on the partner with the mate that gives the lowest F. */
function mateWarnings(
  fish: PairingCandidate,
  mate: PairingCandidate | undefined,
  warnings: GenotypeWarnings,
): readonly PairingWarning[] {
  if (!mate) return [];
  return fish.sex === 'male' ? warnings.of(fish, mate) : warnings.of(mate, fish);
}

function bestFirst(a: OutcrossFacts, b: OutcrossFacts): number {
  const ids = a.fishId < b.fishId ? -1 : 1;
  return b.has - a.has || b.mayHave - a.mayHave || a.meanCoancestry - b.meanCoancestry || ids;
}
