import { normalBelow } from '@linewright/merit';
import { traitPoints } from '../simulated/fish-judge.js';
import { fitAnswers, type FittedAnswers } from './fit-answers.js';
import type { LookAim, TraitAim } from './line-purpose.js';

/** A fish as it is compared: what is not known of it does not count. */
export interface ComparedFish {
  readonly id: string;
  /** Score by trait, in its unit. */
  readonly traits: ReadonlyMap<string, number>;
  /** What is seen, by locus. */
  readonly looks: ReadonlyMap<string, string>;
}

/** What is compared: aims with the worth that they have now. */
export interface Compared {
  readonly traits: readonly TraitAim[];
  readonly looks: readonly LookAim[];
}

/** Of two fish, the one that would rather be bred from, by their ids. */
export interface FishChoice {
  readonly chosen: string;
  readonly other: string;
}

/** What the answers say of the worth of one aim. */
export interface WorthAnswered {
  /** Points for one unit, as the purpose counts them; 0 or more. */
  readonly worth: number;
  /** Standard error of it, in points. */
  readonly error: number;
  /** Chance that the wish goes the way that it was stated, 0 to 1. */
  readonly sure: number;
  /** False where all fish are alike in it, or nothing is known: the answers say nothing of it, and its worth stays. */
  readonly asked: boolean;
}

export interface WorthsAnswered {
  readonly traits: readonly WorthAnswered[];
  readonly looks: readonly WorthAnswered[];
}

/** The two fish whose comparison would tell most. */
export interface Question {
  readonly first: string;
  readonly second: string;
}

/**
 * Before any answer: one standard deviation of an aim of middling worth makes odds of e to 1, and every aim may be off by as much. Guides
 * of our own without a source.
 */
const ODDS_OF_MIDDLING = 1;
const EXPECTED_SPREAD = 1;

/**
 * Worths from answers to "which of the two would you rather breed from?". Each aim's points at worth 1 are set against their standard
 * deviation among the fish; the log-odds of a choice are the sum of what the two differ in ({@link fitAnswers}). Before an answer the worths
 * are as they stand. Points have no size of their own, so those found are told in the size that the present ones have.
 *
 * Assumes that aims add up and that answers do not depend on each other.
 *
 * Throws `MatingError` with code `MATING_BAD_ANSWERS` for figures that are none.
 *
 * Cost: answers x aims^2 a step of the fit.
 */
export function worthsFromAnswers(
  fish: readonly ComparedFish[],
  compared: Compared,
  choices: readonly FishChoice[],
): WorthsAnswered {
  const scale = scaleOf(fish, compared);
  const fit = fitOf(scale, choices);
  const told = scale.aims.map(({ worth, spread }, j): WorthAnswered => {
    const place = scale.asked.indexOf(j);
    if (place < 0) return { worth, error: 0, sure: 0.5, asked: false };
    const [estimate, error] = [fit.estimates[place] ?? 0, fit.errors[place] ?? 0];
    const points = 1 / (scale.oddsOfPoint * spread);
    return {
      worth: Math.max(0, estimate * points),
      error: error * points,
      sure: normalBelow(estimate / error),
      asked: true,
    };
  });
  const split = compared.traits.length;
  return { traits: told.slice(0, split), looks: told.slice(split) };
}

/**
 * The question whose answer would tell most: of all pairs of the fish not asked yet, the one whose outcome is the least certain, given what
 * the answers so far leave open (the variance that the answer would take away, p (1 - p) times the variance of the difference).
 * `null` when all have been asked, or no two differ in anything.
 *
 * @param passed pairs that were not answered, in any order: they are not asked again.
 *
 * Cost: fish^2 x aims^2; some 60 fish at once are plenty.
 */
export function nextQuestion(
  fish: readonly ComparedFish[],
  compared: Compared,
  choices: readonly FishChoice[],
  passed: readonly FishChoice[] = [],
): Question | null {
  const scale = scaleOf(fish, compared);
  const fit = fitOf(scale, choices);
  const asked = new Set([...choices, ...passed].map(({ chosen, other }) => keyOf(chosen, other)));
  let best: { question: Question; gain: number } | null = null;
  for (const [i, first] of fish.entries())
    for (const second of fish.slice(i + 1)) {
      if (asked.has(keyOf(first.id, second.id))) continue;
      const gain = gainOf(differenceOf(scale, first.id, second.id), fit);
      if (gain > 1e-9 && gain > (best?.gain ?? 0) * (1 + 1e-9))
        best = { question: { first: first.id, second: second.id }, gain };
    }
  return best?.question ?? null;
}

const keyOf = (a: string, b: string): string => (a < b ? `${a} ${b}` : `${b} ${a}`);

function gainOf(difference: readonly number[], { estimates, covariance }: FittedAnswers): number {
  const odds = difference.reduce((sum, x, j) => sum + x * (estimates[j] ?? 0), 0);
  const chance = 1 / (1 + Math.exp(-odds));
  let variance = 0;
  difference.forEach((x, j) => {
    difference.forEach((y, k) => (variance += x * y * (covariance[j]?.[k] ?? 0)));
  });
  return chance * (1 - chance) * variance;
}

interface Scale {
  readonly aims: readonly { readonly worth: number; readonly spread: number }[];
  /** Places of the aims in which fish differ. */
  readonly asked: readonly number[];
  /** Points at worth 1, over their spread, by fish; `null` where not known. */
  readonly figures: ReadonlyMap<string, readonly (number | null)[]>;
  readonly oddsOfPoint: number;
}

function scaleOf(fish: readonly ComparedFish[], { traits, looks }: Compared): Scale {
  const points = fish.map((one) => [
    ...traits.map((aim) => pointsOfTrait(aim, one)),
    ...looks.map((aim) => pointsOfLook(aim, one)),
  ]);
  const aims = [...traits, ...looks].map(({ worth }, j) => ({
    worth,
    spread: deviationOf(points.flatMap((of) => of[j] ?? [])),
  }));
  const asked = aims.flatMap(({ spread }, j) => (spread > 0 ? [j] : []));
  const weights = asked.map((j) => aims[j]!.worth * aims[j]!.spread).filter((each) => each > 0);
  const middling = weights.reduce((sum, each) => sum + each, 0) / weights.length;
  return {
    aims,
    asked,
    figures: new Map(
      fish.map(({ id }, i) => [
        id,
        asked.map((j) => {
          const own = points[i]?.[j] ?? null;
          return own === null ? null : own / aims[j]!.spread;
        }),
      ]),
    ),
    // With no worth stated yet, a point is one standard deviation of whatever is compared.
    oddsOfPoint: weights.length === 0 ? ODDS_OF_MIDDLING : ODDS_OF_MIDDLING / middling,
  };
}

function fitOf(scale: Scale, choices: readonly FishChoice[]): FittedAnswers {
  const { aims, asked, oddsOfPoint } = scale;
  return fitAnswers(
    choices.map(({ chosen, other }) => ({ difference: differenceOf(scale, chosen, other) })),
    {
      means: asked.map((j) => aims[j]!.worth * aims[j]!.spread * oddsOfPoint),
      spread: EXPECTED_SPREAD,
    },
  );
}

/** What the first has more than the second; 0 in what is not known of both. */
function differenceOf({ asked, figures }: Scale, first: string, second: string): number[] {
  const [a, b] = [figures.get(first), figures.get(second)];
  return asked.map((_, j) => {
    const [own, others] = [a?.[j] ?? null, b?.[j] ?? null];
    return own === null || others === null ? 0 : own - others;
  });
}

function pointsOfTrait(aim: TraitAim, { traits }: ComparedFish): number | null {
  const score = traits.get(aim.traitId);
  return score === undefined ? null : traitPoints({ ...aim, worth: 1 }, score);
}

function pointsOfLook({ look, wanted }: LookAim, { looks }: ComparedFish): number | null {
  const parts = Object.entries(look.show).map(([locus, phenotype]) => {
    const seen = looks.get(locus);
    return seen === undefined ? null : seen === phenotype;
  });
  // One part that is missing settles it, whatever is not known of the others.
  if (parts.includes(false)) return 0;
  if (parts.includes(null)) return null;
  return wanted ? 1 : -1;
}

function deviationOf(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1));
}
