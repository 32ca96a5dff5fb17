import { coancestryBlock } from '@linewright/kinship';
import type { Locus } from '@linewright/heredity';
import type { InbreedingBasis, Pedigree } from '@linewright/pedigree';
import { ancestryKnowledge } from './ancestry-knowledge.js';
import { dayNumber } from './calendar.js';
import { nameOf, type PairingCandidate } from './candidate.js';
import { readinessWarnings } from './fish-readiness.js';
import { MatingError } from './mating-error.js';
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
import { lookFor, type WantedInPartner, type WantedOutcome } from './wanted-in-partner.js';

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

/** F of a set of possible broods. */
export interface InbreedingRange {
  readonly mean: number;
  readonly least: number;
  readonly most: number;
}

/** The figures of one possible partner for a line. */
export interface OutcrossFacts {
  readonly fishId: string;
  readonly fishName: string;
  /** Mean coancestry with the line's fish in use. */
  readonly meanCoancestry: number;
  /** The line's fish it is most closely related to. */
  readonly closest: { readonly id: string; readonly coancestry: number };
  /** F of the first cross over the line's fish of the other sex; `null` when there is none or the sex is not known. */
  readonly firstCross: (InbreedingRange & { readonly bestMateId: string }) | null;
  /** Mean F of young of that cross put to the line's other fish. */
  readonly returnToLine: number | null;
  /** Mean F of a third generation: young of such a return put to yet another fish of the line. */
  readonly returnTwice: number | null;
  /** Mean F of young of that cross put back to their own line parent. */
  readonly returnToParent: number | null;
  /** Mean F of the line's own males by its own females, for comparison; `null` with one sex only. */
  readonly withinLine: number | null;
  readonly wanted: readonly WantedOutcome[];
  /** Wanted things it surely has, and those it may have. */
  readonly has: number;
  readonly mayHave: number;
  /** Known share of its ancestors over the generations looked at, on record or known to be unrelated. */
  readonly knownAncestry: number;
  /** Whether the coancestries and F told of it are known, or the least that they can be; the line's own are told apart. */
  readonly basis: Exclude<InbreedingBasis, 'unknown'>;
  readonly basisWithinLine: Exclude<InbreedingBasis, 'unknown'>;
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
  const line = new LineFigures(input);
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

/** Coancestries within the line, worked out once. */
class LineFigures {
  readonly fish: readonly PairingCandidate[];
  readonly indices: Int32Array;
  readonly size: number;
  readonly withinLine: number | null;
  readonly #block: Float64Array;
  /** Sum of each fish's coancestries with the whole line, itself included. */
  readonly #sums: Float64Array;

  constructor({ pedigree, line }: OutcrossInput) {
    if (line.length === 0) {
      throw new MatingError(
        'MATING_TOO_FEW_FISH',
        'line',
        'The line has no fish in use. Name at least one.',
      );
    }
    this.fish = line.toSorted((a, b) => (a.id < b.id ? -1 : 1));
    this.indices = indicesOf(pedigree, this.fish);
    this.size = this.fish.length;
    this.#block = coancestryBlock(pedigree, this.indices, this.indices);
    this.#sums = Float64Array.from(this.fish, (_, k) => {
      return this.#block
        .subarray(k * this.size, (k + 1) * this.size)
        .reduce((sum, value) => sum + value, 0);
    });
    const males = this.#ofSex('male');
    const females = this.#ofSex('female');
    const own = males.flatMap((m) => females.map((f) => this.#between(m, f)));
    this.withinLine = own.length === 0 ? null : average(own);
  }

  find(id: string | undefined): PairingCandidate | undefined {
    return this.fish.find((one) => one.id === id);
  }

  /** Positions of the line's fish of the other sex. */
  matesOf({ sex }: PairingCandidate): readonly number[] {
    return sex === 'unknown' ? [] : this.#ofSex(sex === 'male' ? 'female' : 'male');
  }

  firstCross(withLine: Float64Array, mates: readonly number[]): OutcrossSuggestion['firstCross'] {
    const [first] = mates;
    if (first === undefined) return null;
    const figures = mates.map((mate) => withLine[mate] ?? 0);
    const least = Math.min(...figures);
    const best = mates.find((mate) => withLine[mate] === least) ?? first;
    return {
      mean: average(figures),
      least,
      most: Math.max(...figures),
      bestMateId: this.fish[best]?.id ?? '',
    };
  }

  /** Sums over the line's fish are worked out once, and each mate's own part is taken off again. */
  returnToLine(withLine: Float64Array, mates: readonly number[]): number | null {
    const broods = mates.length * (this.size - 1);
    if (broods === 0) return null;
    const partnerSum = withLine.reduce((sum, value) => sum + value, 0);
    let total = 0;
    for (const mate of mates) {
      const partnerPart = partnerSum - (withLine[mate] ?? 0);
      const matePart = (this.#sums[mate] ?? 0) - this.#between(mate, mate);
      total += (partnerPart + matePart) / 2;
    }
    return total / broods;
  }

  /** Pairs of two others of the line than the mate: from sums over the whole line, less what the mate and each fish with itself add. */
  returnTwice(withLine: Float64Array, mates: readonly number[]): number | null {
    const others = this.size - 1;
    if (mates.length === 0 || others < 2) return null;
    const partnerSum = withLine.reduce((sum, value) => sum + value, 0);
    const whole = this.#sums.reduce((sum, value) => sum + value, 0);
    const selves = this.fish.reduce((sum, _, k) => sum + this.#between(k, k), 0);
    let total = 0;
    for (const mate of mates) {
      const self = this.#between(mate, mate);
      const mateSum = this.#sums[mate] ?? 0;
      const crossPart = partnerSum - (withLine[mate] ?? 0) + mateSum - self;
      const linePart = whole - 2 * mateSum + self - (selves - self);
      total += crossPart / others / 4 + linePart / (others * (others - 1)) / 2;
    }
    return total / mates.length;
  }

  returnToParent(withLine: Float64Array, mates: readonly number[]): number | null {
    if (mates.length === 0) return null;
    return average(mates.map((mate) => ((withLine[mate] ?? 0) + this.#between(mate, mate)) / 2));
  }

  #ofSex(sex: 'male' | 'female'): number[] {
    return this.fish.flatMap((one, k) => (one.sex === sex ? [k] : []));
  }

  #between(a: number, b: number): number {
    return this.#block[a * this.size + b] ?? 0;
  }
}

function indicesOf(pedigree: Pedigree, fish: readonly PairingCandidate[]): Int32Array {
  return Int32Array.from(fish, ({ id }) => {
    if (pedigree.has(id)) return pedigree.indexOf(id);
    throw new MatingError(
      'MATING_UNKNOWN_FISH',
      id,
      `Fish ${id} is not in the pedigree. Add it, or remove it here.`,
    );
  });
}

function average(figures: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < figures.length; k++) sum += figures[k] ?? 0;
  return sum / figures.length;
}
