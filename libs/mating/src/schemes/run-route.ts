import type { Draws } from '../simulated/draws.js';
import type { FishJudge } from '../simulated/fish-judge.js';
import type { SimulatedBrood, SimulatedLine } from '../simulated/simulated-line.js';
import type { ParentChoice, PlannedBrood, Route } from './route.js';

/** When a route has reached what is wanted. */
export interface RouteGoal {
  /** Share of a brood's young that have to pass the standard, 0 to 1. */
  readonly share: number;
  /** Highest F of a brood, 0 to 1. */
  readonly ceiling: number;
}

/** How one simulated course of a route went. */
export interface RouteCourse {
  /** The generation, 1 and up, in which a brood reached the goal; 0: none did. */
  readonly reached: number;
  /** Generations that were bred. */
  readonly generations: number;
  /** Young raised to the age of sorting, of all broods. */
  readonly fry: number;
  /** Broods raised. */
  readonly broods: number;
  /** F of the brood that reached the goal, else of the last. */
  readonly inbreeding: number;
  /** Share of that brood that passed. */
  readonly passing: number;
  /** Why it ended before its last step: no pair under the ceiling, or no young of one sex; `null`: it did not. */
  readonly ended: 'ceiling' | 'one-sex' | null;
}

/** Young of a brood that are looked at as parents, the best of each sex: pairs beyond them would have fewer points in any case. */
const BEST = 4;

/**
 * Follows a route once. In each generation the keeper scores all young of each brood and pairs the male and the female that have most points
 * together among those whose brood would stay under the ceiling; the course ends with the first brood that reaches the goal.
 */
export function runRoute(
  line: SimulatedLine,
  judge: FishJudge,
  route: Route,
  goal: RouteGoal,
  { fryPerBrood, draws }: { readonly fryPerBrood: number; readonly draws: Draws },
): RouteCourse {
  line.begin(draws);
  const raised: (readonly SimulatedBrood[])[] = [];
  let [fry, broods, last] = [0, 0, { inbreeding: 0, passing: 0 }];
  for (const { broods: planned } of route.steps) {
    const made: SimulatedBrood[] = [];
    for (const plan of planned) {
      const pair = bestPair(line, judge, plan, raised, goal.ceiling);
      if (typeof pair === 'string')
        return { reached: 0, generations: raised.length, fry, broods, ...last, ended: pair };
      const brood = line.spawn(...pair, fryPerBrood);
      fry += brood.count;
      broods++;
      made.push(brood);
    }
    raised.push(made);
    for (const brood of made) {
      last = { inbreeding: brood.inbreeding, passing: passingShare(judge, brood) };
      if (last.passing >= goal.share && last.inbreeding <= goal.ceiling + 1e-12)
        return {
          reached: raised.length,
          generations: raised.length,
          fry,
          broods,
          ...last,
          ended: null,
        };
    }
  }
  return { reached: 0, generations: raised.length, fry, broods, ...last, ended: null };
}

function passingShare(judge: FishJudge, { first, count }: SimulatedBrood): number {
  let passing = 0;
  for (let i = first; i < first + count; i++) if (judge.passes(i)) passing++;
  return passing / count;
}

function bestPair(
  line: SimulatedLine,
  judge: FishJudge,
  { sire, dam }: PlannedBrood,
  raised: readonly (readonly SimulatedBrood[])[],
  ceiling: number,
): [sire: number, dam: number] | 'ceiling' | 'one-sex' {
  const males = candidates(line, judge, sire, raised, 1);
  const females = candidates(line, judge, dam, raised, 0);
  if (males.length === 0 || females.length === 0) return 'one-sex';
  let [found, most]: [[number, number] | null, number] = [null, -Infinity];
  for (const m of males)
    for (const f of females) {
      const points = m.points + f.points;
      if (points <= most || line.inbreedingOfBrood(m.fish, f.fish) > ceiling + 1e-12) continue;
      [found, most] = [[m.fish, f.fish], points];
    }
  return found ?? 'ceiling';
}

interface Candidate {
  readonly fish: number;
  readonly points: number;
}

function candidates(
  line: SimulatedLine,
  judge: FishJudge,
  choice: ParentChoice,
  raised: readonly (readonly SimulatedBrood[])[],
  male: 0 | 1,
): Candidate[] {
  if (choice.kind === 'fish') return [{ fish: choice.fish, points: 0 }];
  const { first, count } = raised[choice.step]![choice.brood]!;
  const found: Candidate[] = [];
  for (let fish = first; fish < first + count; fish++)
    if (line.male[fish] === male) found.push({ fish, points: judge.points(fish) });
  return found.sort((a, b) => b.points - a.points || a.fish - b.fish).slice(0, BEST);
}
