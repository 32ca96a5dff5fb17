import { inbreedingCoefficients, tellInbreeding } from '@linewright/kinship';
import type { InbreedingBasis, Pedigree } from '@linewright/pedigree';
import { ancestryKnowledge } from './ancestry-knowledge.js';
import { dayNumber } from './calendar.js';
import { nameOf, type PairingCandidate, type PastPairing, type TraitWish } from './candidate.js';
import { checkWishes, WishShares } from './class-wishes.js';
import { readinessWarnings } from './fish-readiness.js';
import { MatingError } from './mating-error.js';
import { spreadOf, summariseAll, type ParentTrait, type TraitSpread } from './mid-parent.js';
import type { PairingInput } from './pairing-input.js';
import { STARTING_PURPOSE } from './purpose/line-purpose.js';
import { GenotypeWarnings, packed, unpacked } from './genotype-warnings.js';
import { PAIR_RULES, type PairFacts } from './pairing-rules.js';
import { severityRank, type PairingWarning, type Severity } from './reason.js';
import { SettingsOfPairs } from './settings-of-pairs.js';
import { completeSettings, type PairingSettings } from './settings.js';
import { JudgedWorth, type WorthBasis } from './worth/judged-worth.js';

/** A trait wish with the candidates' figures for it. */
export interface JudgedTrait {
  readonly wish: TraitWish;
  readonly males: readonly (ParentTrait | null)[];
  readonly females: readonly (ParentTrait | null)[];
  readonly spread: TraitSpread;
}

const NONE: readonly PastPairing[] = [];
/** As long as nobody says what a line is for, every pair is worth the same, and order falls to F. */
const NOTHING_ASKED: WorthBasis = {
  purpose: STARTING_PURPOSE,
  ...{ traits: [], fry: 0, survival: 0, load: 0 },
};

/** A candidate that is not paired, and why. */
export interface LeftOutCandidate {
  readonly id: string;
  readonly why: 'SEX_NOT_KNOWN';
  readonly text: string;
}

/**
 * Holds what is worked out once for a set of candidates, and judges single pairs from it by position: male `m`, female `f`.
 *
 * The list and the full row ask the same rules and the same worth here, so that they cannot disagree.
 */
export class PairingJudge {
  readonly pedigree: Pedigree;
  /** Of no line in particular. */
  readonly settings: PairingSettings;
  readonly #settingsOf: SettingsOfPairs;
  readonly input: PairingInput;
  readonly males: readonly PairingCandidate[];
  readonly females: readonly PairingCandidate[];
  readonly leftOut: readonly LeftOutCandidate[];
  readonly traits: readonly JudgedTrait[];
  readonly wishes: WishShares;
  readonly worth: JudgedWorth;
  readonly maleIndex: Int32Array;
  readonly femaleIndex: Int32Array;
  readonly maleAncestry: Float64Array;
  readonly femaleAncestry: Float64Array;
  readonly #open: Uint8Array;
  readonly #inbreedingOf: (m: number, f: number) => number;
  readonly #readiness: { males: readonly PairingWarning[][]; females: readonly PairingWarning[][] };
  readonly #genotypeWarnings = new GenotypeWarnings();
  /** Packed counts of the warnings on each fish alone. */
  readonly #ofMales: Int32Array;
  readonly #ofFemales: Int32Array;
  readonly #genotypeCounts: (m: number, f: number) => number;
  /** By position of the male, then of the female. */
  readonly #past: ReadonlyMap<number, ReadonlyMap<number, readonly PastPairing[]>>;
  readonly #counted = { pair: -1, counts: 0 };
  #facts: Mutable<PairFacts> | null = null;
  #allInbreeding: Float64Array | null = null;
  #names: ReadonlyMap<string, string> | null = null;

  constructor(
    input: PairingInput,
    inbreedingFor: (judge: PairingJudge) => (m: number, f: number) => number,
  ) {
    this.input = input;
    this.pedigree = input.pedigree;
    if (input.inbreeding !== undefined) tellInbreeding(input.pedigree, input.inbreeding);
    this.settings = completeSettings(input.settings);
    dayNumber(input.asOf);
    checkCandidates(input);
    checkWishes(input.wanted, input.loci);
    checkWishes(input.unwanted, input.loci);
    this.males = input.candidates.filter(({ sex }) => sex === 'male');
    this.females = input.candidates.filter(({ sex }) => sex === 'female');
    this.leftOut = input.candidates.flatMap((fish) =>
      fish.sex === 'unknown' ? [leftOutFor(fish)] : [],
    );
    this.maleIndex = Int32Array.from(this.males, ({ id }) => input.pedigree.indexOf(id));
    this.femaleIndex = Int32Array.from(this.females, ({ id }) => input.pedigree.indexOf(id));
    const { known, open } = ancestryKnowledge(
      input.pedigree,
      this.settings.ancestryGenerations,
      input.unrelatedOrigin,
    );
    this.#open = open;
    this.maleAncestry = Float64Array.from(this.maleIndex, (i) => known[i] ?? 0);
    this.femaleAncestry = Float64Array.from(this.femaleIndex, (i) => known[i] ?? 0);
    this.traits = (input.traits ?? []).map((wish) => judgedTrait(wish, this.males, this.females));
    this.wishes = new WishShares(this.males, this.females, input.loci);
    const settingsOf = new SettingsOfPairs(
      this.settings,
      input.settingsOfLines ?? {},
      this.males,
      this.females,
    );
    this.#settingsOf = settingsOf;
    this.#readiness = {
      males: this.males.map((fish, m) =>
        readinessWarnings(fish, 'sire', input.asOf, settingsOf.ofMale(m)),
      ),
      females: this.females.map((fish, f) =>
        readinessWarnings(fish, 'dam', input.asOf, settingsOf.ofFemale(f)),
      ),
    };
    this.#ofMales = Int32Array.from(this.#readiness.males, packed);
    this.#ofFemales = Int32Array.from(this.#readiness.females, packed);
    this.#genotypeCounts = this.#genotypeWarnings.counter(this.males, this.females);
    this.#past = pastByPair(input.pastPairings ?? [], this.males, this.females);
    this.#inbreedingOf = inbreedingFor(this);
    this.worth = this.#worthOf(input);
  }

  #worthOf({ worth, loci }: PairingInput): JudgedWorth {
    // Nothing is asked of F where no points hang on it: it takes a pass over the whole pedigree.
    const counted = worth !== undefined && worth.traits.length > 0;
    const of = counted ? this.allInbreeding() : null;
    return new JudgedWorth(worth ?? NOTHING_ASKED, {
      males: this.males,
      females: this.females,
      inbreeding: ({ id }) => (of === null ? 0 : of[this.pedigree.indexOf(id)]!),
      coancestry: (m, f) => this.inbreeding(m, f),
      ...(loci && { loci }),
    });
  }

  /** What the pair is judged by: the stricter of the settings of both lines. */
  settingsOf(m: number, f: number): PairingSettings {
    return this.#settingsOf.ofPair(m, f);
  }

  /** F of the brood. */
  inbreeding(m: number, f: number): number {
    return this.#inbreedingOf(m, f);
  }

  /** Whether F of the brood is known, or the least that it can be. */
  basis(m: number, f: number): Exclude<InbreedingBasis, 'unknown'> {
    const open = (index: number | undefined) => this.#open[index ?? 0] === 1;
    return open(this.maleIndex[m]) || open(this.femaleIndex[f]) ? 'at-least' : 'known';
  }

  /** F of every fish of the pedigree, as given or computed when first asked for. */
  allInbreeding(): Float64Array {
    return (this.#allInbreeding ??= this.input.inbreeding ?? inbreedingCoefficients(this.pedigree));
  }

  /** The name of any fish of the pedigree: a candidate's tag, what `input.names` says, or the id. */
  nameOfId(id: string): string {
    this.#names ??= new Map(this.input.candidates.map((fish) => [fish.id, nameOf(fish)]));
    return this.input.names?.get(id) ?? this.#names.get(id) ?? id;
  }

  pastPairings(m: number, f: number): readonly PastPairing[] {
    return this.#past.get(m)?.get(f) ?? NONE;
  }

  /** Calls `take` with the code and severity of each warning on a pair, without making its text. */
  eachWarning(m: number, f: number, take: (code: string, severity: Severity) => void): void {
    for (const { code, severity } of this.#readiness.males[m] ?? []) take(code, severity);
    for (const { code, severity } of this.#readiness.females[f] ?? []) take(code, severity);
    const [facts, settings] = [this.#factsOf(m, f), this.settingsOf(m, f)];
    for (const { code, severity } of this.#genotypeWarnings.of(facts.sire, facts.dam))
      take(code, severity);
    for (const rule of PAIR_RULES) {
      const severity = rule.severity(facts, settings);
      if (severity) take(rule.code, severity);
    }
  }

  /** The warnings on a pair in full, gravest first. */
  warnings(m: number, f: number): readonly PairingWarning[] {
    const [facts, settings] = [this.#factsOf(m, f), this.settingsOf(m, f)];
    const own = PAIR_RULES.flatMap((rule): PairingWarning[] => {
      const severity = rule.severity(facts, settings);
      return severity ? [{ code: rule.code, severity, ...rule.describe(facts, settings) }] : [];
    });
    const all = [
      ...(this.#readiness.males[m] ?? []),
      ...(this.#readiness.females[f] ?? []),
      ...this.#genotypeWarnings.of(facts.sire, facts.dam),
      ...own,
    ];
    return all.toSorted((a, b) => severityRank(b.severity) - severityRank(a.severity));
  }

  /** One object for all pairs, filled anew: the list asks for millions of them. Nobody keeps it. */
  #factsOf(m: number, f: number): PairFacts {
    const [sire, dam] = [at(this.males, m), at(this.females, f)];
    const facts = (this.#facts ??= {
      sire,
      dam,
      inbreeding: 0,
      basis: 'known',
      leastKnownAncestry: 0,
      failures: NONE,
    });
    facts.sire = sire;
    facts.dam = dam;
    facts.inbreeding = this.inbreeding(m, f);
    facts.basis = this.basis(m, f);
    facts.leastKnownAncestry = Math.min(this.maleAncestry[m] ?? 0, this.femaleAncestry[f] ?? 0);
    const past = this.pastPairings(m, f);
    facts.failures = past.length === 0 ? NONE : past.filter(isFailure);
    return facts;
  }

  /** The gravest severity of the warnings on a pair, or `null`. */
  gravest(m: number, f: number): Severity | null {
    for (const severity of ['stop', 'caution', 'note'] as const)
      if (this.#count(m, f, severity) > 0) return severity;
    return null;
  }

  /** All counts come from one pass, and those who ask do so one after the other. */
  #count(m: number, f: number, wanted: Severity): number {
    const pair = m * this.females.length + f;
    const counted = this.#counted;
    if (counted.pair !== pair) {
      counted.pair = pair;
      counted.counts =
        (this.#ofMales[m] ?? 0) + (this.#ofFemales[f] ?? 0) + this.#genotypeCounts(m, f);
      const [facts, settings] = [this.#factsOf(m, f), this.settingsOf(m, f)];
      for (const rule of PAIR_RULES) {
        const severity = rule.severity(facts, settings);
        if (severity) counted.counts += packed([{ severity }]);
      }
    }
    return unpacked(counted.counts, wanted);
  }
}

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] };

function isFailure({ outcome }: PastPairing): boolean {
  return outcome === 'failed';
}

function judgedTrait(
  wish: TraitWish,
  males: readonly PairingCandidate[],
  females: readonly PairingCandidate[],
): JudgedTrait {
  const ofMales = summariseAll(males, wish.traitId);
  const ofFemales = summariseAll(females, wish.traitId);
  return { wish, males: ofMales, females: ofFemales, spread: spreadOf([...ofMales, ...ofFemales]) };
}

function checkCandidates({ pedigree, candidates }: PairingInput): void {
  const seen = new Set<string>();
  for (const { id } of candidates) {
    if (!pedigree.has(id)) {
      throw new MatingError(
        'MATING_UNKNOWN_FISH',
        id,
        `Fish ${id} is not in the pedigree. Add it, or remove it here.`,
      );
    }
    if (seen.has(id))
      throw new MatingError(
        'MATING_DUPLICATE_FISH',
        id,
        `Fish ${id} is listed twice. List it once.`,
      );
    seen.add(id);
  }
}

function leftOutFor(fish: PairingCandidate): LeftOutCandidate {
  const text = `${nameOf(fish)} is not sexed, so it was compared with no other fish. Record its sex to include it.`;
  return { id: fish.id, why: 'SEX_NOT_KNOWN', text };
}

/** Earlier pairings by the positions of sire and dam, oldest first. */
function pastByPair(
  past: readonly PastPairing[],
  males: readonly PairingCandidate[],
  females: readonly PairingCandidate[],
): Map<number, Map<number, PastPairing[]>> {
  const places = (list: readonly PairingCandidate[]) => new Map(list.map(({ id }, i) => [id, i]));
  const [sires, dams] = [places(males), places(females)];
  const found = new Map<number, Map<number, PastPairing[]>>();
  const oldestFirst = past.toSorted((a, b) => {
    const [x, y] = [a.on ?? '', b.on ?? ''];
    return x < y ? -1 : x > y ? 1 : 0;
  });
  for (const pairing of oldestFirst) {
    const [m, f] = [sires.get(pairing.sireId), dams.get(pairing.damId)];
    if (m === undefined || f === undefined) continue;
    const byDam = found.get(m) ?? new Map<number, PastPairing[]>();
    found.set(m, byDam);
    const ofPair = byDam.get(f);
    if (ofPair) ofPair.push(pairing);
    else byDam.set(f, [pairing]);
  }
  return found;
}

function at(fish: readonly PairingCandidate[], position: number): PairingCandidate {
  const found = fish[position];
  if (!found)
    throw new MatingError(
      'MATING_UNKNOWN_FISH',
      String(position),
      `No fish stands at ${String(position)}.`,
    );
  return found;
}
