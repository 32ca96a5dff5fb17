import type { WatchedAllele } from '../purpose/wanted-alleles.js';
import { MatingError } from '../mating-error.js';
import type { TraitAim } from '../purpose/line-purpose.js';
import { traitPoints } from '../simulated/fish-judge.js';
import type { BelievedTrait, LineBelief } from '../simulated/line-belief.js';
import type { AfterOutcross, OutcrossFish } from './outcross-fish.js';
import { alleleCourse, type AlleleChances } from './outcross-alleles.js';

export interface OutcrossCourseInput {
  readonly belief: LineBelief;
  /** 1 for fish of the line. */
  readonly ofLine: ArrayLike<number>;
  readonly fish: OutcrossFish;
  readonly aims: readonly TraitAim[];
  readonly alleles: readonly WatchedAllele[];
  /** The cross and the generations after it: from 1 to 10. */
  readonly generations: number;
  /** Back to the line unless given. */
  readonly after?: AfterOutcross;
}

/** What the young of one generation are expected to be when none are chosen among. */
export interface OutcrossGeneration {
  /** 1: the cross; after it each is one more backcross, or one more of brother and sister. */
  readonly generation: number;
  /** F of the brood: exact by the coancestries of the actual fish. */
  readonly inbreeding: number;
  /** Share of the blood that is the line's: 1/2, 3/4, 7/8 with backcrosses, else 1/2. Linkage is not counted. */
  readonly lineShare: number;
  /** By trait of the aims, in the trait's unit. */
  readonly traits: readonly {
    readonly traitId: string;
    readonly mean: number;
    readonly standardError: number;
  }[];
  readonly alleles: readonly AlleleChances[];
}

/** How a trait falls behind the line, and comes back. */
export interface TraitReturn {
  readonly traitId: string;
  /** Mean of the line's fish, in the trait's unit. */
  readonly lineMean: number;
  readonly partner: number;
  /** By how much the young of the cross are worse than the line, in the trait's unit; below 0: they are better. */
  readonly lost: number;
  /** Generations after the cross from which on the young are at most a tenth of the trait's spread worse than the line; `null`: not within ten. */
  readonly backAfter: number | null;
}

export interface OutcrossCourse {
  readonly generations: readonly OutcrossGeneration[];
  readonly traits: readonly TraitReturn[];
  /** Share of each watched allele among the line's fish, and in the partner. */
  readonly alleles: readonly (WatchedAllele & {
    readonly inLine: number;
    readonly inPartner: number;
  })[];
}

const MOST_AFTER = 10;
/** A tenth of the standard deviation between fish counts as back; a guide of our own, no source. */
const BACK_WITHIN = 0.1;

/**
 * A cross to a fish from outside the line, and then back to one fish of the line again and again, or brother to sister.
 *
 * A young of generation t is half the one before and half the fish B that it is put back to, so that its expected share w of each actual fish
 * follows, and with it F = sum of w_i theta(i, B), the mean of each trait as sum of w_i a_i, and its error from the covariances of the errors.
 * With an unrelated partner and B = mate this is the recurrence F(t) = (1 + F_B + 2 F(t-1)) / 4 of repeated backcrossing. Bred brother to
 * sister, the shares stay halves, and F(t) is the coancestry S(t-1) of two young of one brood: S(1) = (theta(P, P) + theta(L, L) + 2 theta(P, L))
 * / 4 of partner P and mate L, S(t) = (1 + F(t-1)) / 4 + S(t-1) / 2. None are chosen among, all loci are unlinked: genes near those that are
 * chosen for stay longer than the shares say.
 *
 * @throws MatingError MATING_BAD_SETTING. Cost: fish squared for each trait and generation.
 */
export function outcrossCourse(input: OutcrossCourseInput): OutcrossCourse {
  checkInput(input);
  const { belief, ofLine, fish, aims, alleles, generations, after = 'back' } = input;
  const line = belief.fish.flatMap((_, k) => (ofLine[k] === 1 ? [k] : []));
  const course = { fish, after };
  const watched = alleles.map((one) => alleleCourse(belief, line, course, one, generations));
  const traits = aims.flatMap((aim) => {
    const trait = belief.traits.find(({ traitId }) => traitId === aim.traitId);
    return trait === undefined ? [] : [{ aim, trait }];
  });
  return {
    generations: Array.from({ length: generations }, (_, k) => {
      const share = sharesOf(course, k + 1, belief.fish.length);
      return {
        generation: k + 1,
        inbreeding: inbreedingOf(belief, course, k + 1),
        lineShare: 1 - share[fish.partner]!,
        traits: traits.map(({ trait }) => ({ traitId: trait.traitId, ...meanOf(trait, share) })),
        alleles: watched.map((one) => one.generations[k]!),
      };
    }),
    traits: traits.map(({ aim, trait }) => traitReturn(aim, trait, line, course)),
    alleles: watched.map(({ generations: _, ...one }) => one),
  };
}

interface Course {
  readonly fish: OutcrossFish;
  readonly after: AfterOutcross;
}

/** Expected share of each actual fish in the young of a generation. */
function sharesOf(
  { fish: { partner, mate, back }, after }: Course,
  generation: number,
  size: number,
) {
  const share = new Float64Array(size);
  const first = after === 'back' ? 0.5 ** generation : 0.5;
  share[partner]! += first;
  share[mate]! += first;
  share[back]! += 1 - 2 * first;
  return share;
}

function inbreedingOf(
  { coancestry, fish: all }: LineBelief,
  course: Course,
  generation: number,
): number {
  const { partner, mate, back } = course.fish;
  const between = (a: number, b: number): number => coancestry[a * all.length + b]!;
  const cross = between(partner, mate);
  if (generation === 1) return cross;
  if (course.after === 'within') {
    let [before, sibs] = [cross, (between(partner, partner) + between(mate, mate) + 2 * cross) / 4];
    for (let t = 2; t < generation; t++) [before, sibs] = [sibs, (1 + before) / 4 + sibs / 2];
    return sibs;
  }
  const parent = sharesOf(course, generation - 1, all.length);
  return parent.reduce((sum, share, k) => sum + share * between(k, back), 0);
}

function meanOf({ level, value, error }: BelievedTrait, share: Float64Array) {
  const size = share.length;
  let [mean, variance] = [level, 0];
  share.forEach((own, i) => {
    mean += own * value[i]!;
    if (own !== 0) share.forEach((other, j) => (variance += own * other * error[i * size + j]!));
  });
  return { mean, standardError: Math.sqrt(Math.max(0, variance)) };
}

function traitReturn(
  aim: TraitAim,
  trait: BelievedTrait,
  line: readonly number[],
  course: Course,
): TraitReturn {
  const lineMean = trait.level + line.reduce((sum, k) => sum + trait.value[k]!, 0) / line.length;
  const spread = Math.sqrt(trait.additive + trait.commonBrood + trait.residual);
  const unit = { ...aim, worth: 1 };
  const lostAt = (generation: number): number =>
    traitPoints(unit, lineMean) -
    traitPoints(unit, meanOf(trait, sharesOf(course, generation, trait.value.length)).mean);
  let backAfter: number | null = null;
  for (let k = MOST_AFTER; k >= 0 && lostAt(k + 1) <= BACK_WITHIN * spread; k--) backAfter = k;
  return {
    traitId: trait.traitId,
    lineMean,
    partner: trait.level + trait.value[course.fish.partner]!,
    lost: lostAt(1),
    backAfter,
  };
}

/**
 * Mate and fish to go back to for a partner, of one line: those with most points by what is believed of their traits; among equals those
 * whose young of the first backcross have the least F. They are two fish wherever they can be.
 *
 * @param named the mate, or the fish to go back to, where it is chosen already.
 * @returns null when the line has no fish of the other sex than the partner.
 */
export function chooseOutcrossFish(
  { belief, ofLine, aims }: Pick<OutcrossCourseInput, 'belief' | 'ofLine' | 'aims'>,
  partner: number,
  named: Partial<Pick<OutcrossFish, 'mate' | 'back'>> = {},
): OutcrossFish | null {
  const line = belief.fish.flatMap((_, k) => (ofLine[k] === 1 && k !== partner ? [k] : []));
  const mates = line.filter((k) => belief.sex[k] !== belief.sex[partner]);
  const points = (k: number): number =>
    aims.reduce((sum, aim) => {
      const trait = belief.traits.find(({ traitId }) => traitId === aim.traitId);
      return trait === undefined ? sum : sum + traitPoints(aim, trait.level + trait.value[k]!);
    }, 0);
  const worth = belief.fish.map((_, k) => points(k));
  const same = ({ mate, back }: OutcrossFish): number => Number(mate === back);
  const found = mates
    .filter((mate) => named.mate === undefined || mate === named.mate)
    .flatMap((mate) => line.map((back): OutcrossFish => ({ partner, mate, back })))
    .filter(({ back }) => named.back === undefined || back === named.back)
    .map((fish) => ({
      fish,
      worth: worth[fish.mate]! + worth[fish.back]!,
      inbreeding: inbreedingOf(belief, { fish, after: 'back' }, 2),
    }))
    .toSorted(
      (a, b) => same(a.fish) - same(b.fish) || b.worth - a.worth || a.inbreeding - b.inbreeding,
    );
  return found[0]?.fish ?? null;
}

function checkInput({ belief, ofLine, fish, generations }: OutcrossCourseInput): void {
  const { partner, mate, back } = fish;
  const bad = (subject: string, message: string): MatingError =>
    new MatingError('MATING_BAD_SETTING', subject, message);
  if (!Number.isInteger(generations) || generations < 1 || generations > MOST_AFTER)
    throw bad(
      'generations',
      `${generations} generations: give a whole number from 1 to ${MOST_AFTER}.`,
    );
  if (ofLine[partner] !== 0 || ofLine[mate] !== 1 || ofLine[back] !== 1)
    throw bad(
      'fish',
      'An outcross is of a fish from outside the line, a mate of the line, and a fish of the line to go back to.',
    );
  if (belief.sex[partner] === belief.sex[mate])
    throw bad(
      'fish',
      `The partner and its mate are both ${String(belief.sex[mate])}. Choose a mate of the other sex.`,
    );
}
