import {
  backToBest,
  bestByBest,
  byChance,
  Draws,
  FishJudge,
  leastRelated,
  LineCourse,
  planned,
  SimulatedLine,
  type Strategy,
} from '@linewright/mating';
import { MeritValues } from './merit-values.js';
import type { Scenario } from './scenarios.js';

interface Tried {
  readonly name: string;
  readonly make: () => Strategy;
  /** Where another rise of kinship is allowed than by the settings. */
  readonly kinshipRise?: number;
}

export const STRATEGIES: readonly Tried[] = [
  { name: 'the plan', make: () => planned },
  { name: 'the plan, 8 % allowed', make: () => planned, kinshipRise: 0.08 },
  { name: 'best by best', make: () => bestByBest },
  { name: 'back to the best fish', make: () => backToBest(3) },
  { name: 'least related', make: () => leastRelated },
  { name: 'chance', make: () => byChance },
];

export const SETTINGS = {
  broods: 3,
  broodsPerFish: 2,
  fryPerBrood: 20,
  keptPerBrood: 2,
  kinshipRise: 0.05,
} as const;
export const GENERATIONS = 5;

/** What many lines came to under one strategy: means, and their standard errors. */
export interface Outcome {
  readonly strategy: string;
  /** Points gained a fish by what is inherited. */
  readonly gain: readonly [mean: number, error: number];
  readonly kinship: readonly [mean: number, error: number];
  readonly inbreeding: readonly [mean: number, error: number];
  /** Share of lines in which the wanted allele is still there; `null`: none is wanted. */
  readonly kept: number | null;
  /** Share of lines of whose last young at least one in ten shows the wanted look. */
  readonly shown: number | null;
  readonly fry: number;
}

/** All strategies on the same true lines. */
export function compare(scenario: Scenario, lines: number): Outcome[] {
  return STRATEGIES.map(({ name, make, kinshipRise = SETTINGS.kinshipRise }) => {
    const ends = Array.from({ length: lines }, (_, k) => oneLine(scenario, make(), kinshipRise, k));
    const of = (pick: (end: End) => number): readonly [number, number] => {
      const mean = ends.reduce((sum, end) => sum + pick(end), 0) / lines;
      const squares = ends.reduce((sum, end) => sum + (pick(end) - mean) ** 2, 0);
      return [mean, Math.sqrt(squares / (lines - 1) / lines)];
    };
    const wants = scenario.truth.loci.length > 0;
    return {
      strategy: name,
      gain: of(({ gain }) => gain),
      kinship: of(({ kinship }) => kinship),
      inbreeding: of(({ inbreeding }) => inbreeding),
      kept: wants ? of(({ frequency }) => Number(frequency > 0))[0] : null,
      shown: wants ? of(({ shown }) => Number(shown >= 0.1))[0] : null,
      fry: SETTINGS.broods * SETTINGS.fryPerBrood * GENERATIONS,
    };
  });
}

interface End {
  readonly gain: number;
  readonly kinship: number;
  readonly inbreeding: number;
  readonly frequency: number;
  readonly shown: number;
}

function oneLine(
  { truth, purpose, history }: Scenario,
  choose: Strategy,
  kinshipRise: number,
  seed: number,
): End {
  const line = new SimulatedLine(truth);
  const judge = new FishJudge(line, purpose);
  const values = new MeritValues(line, history);
  const course = new LineCourse(
    line,
    judge,
    { ...SETTINGS, kinshipRise },
    new Draws(1_000 + seed),
    values,
  );
  const mean = (of: (fish: number) => number): number =>
    course.fish.reduce((sum, fish) => sum + of(fish), 0) / course.fish.length;
  const worth = (): number =>
    mean((fish) => {
      let sum = 0;
      for (let t = 0; t < line.traits; t++) sum += line.value[fish * line.traits + t]!;
      return sum;
    });
  const before = worth();
  for (let g = 0; g < GENERATIONS; g++) course.next(choose);
  const wanted = line.loci > 0;
  return {
    gain: worth() - before,
    kinship: course.meanKinship(),
    inbreeding: mean((fish) => line.inbreedingOf(fish)),
    frequency: wanted ? mean((fish) => line.copies(fish, 0, 1) / 2) : 0,
    shown: wanted ? mean((fish) => Number(line.copies(fish, 0, 1) === 2)) : 0,
  };
}
