import {
  Draws,
  FishJudge,
  RouteTally,
  runRoute,
  siblingRoute,
  SimulatedLine,
  type LineBelief,
  type LinePurpose,
} from '@linewright/mating';
import { recessive, showing } from '../made-belief.js';
import { MeritValues } from './merit-values.js';
import { SCENARIOS } from './scenarios.js';

/** A chance that was said, and whether it came true. */
export interface Said {
  readonly chance: number;
  readonly came: boolean;
}

export interface Kind {
  readonly name: string;
  readonly said: readonly Said[];
}

const SIMULATIONS = 400;
const FRY = 20;

/** The true line with all that is hidden in it, as if it were known: one run of it is what happens. */
function knownTruth(line: SimulatedLine): LineBelief {
  const { belief, founders, traits, loci, tables } = line;
  return {
    ...belief,
    traits: belief.traits.map((trait, t) => ({
      ...trait,
      value: Float64Array.from({ length: founders }, (_, k) => line.value[k * traits + t]!),
      error: new Float64Array(founders ** 2),
    })),
    loci: belief.loci.map(({ locus }, at) => ({
      locus,
      groups: belief.fish.map((_, k) => {
        const { alleles } = tables[at]!;
        const code = line.genotype[k * loci + at]!;
        const id = (place: number): string => locus.alleles[place]!.id;
        const genotype = [id(Math.floor(code / alleles)), id(code % alleles)] as const;
        return { fish: [k], outcomes: [{ genotypes: [genotype], probability: 1 }] };
      }),
    })),
  };
}

interface Trial {
  readonly truth: LineBelief;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks'>;
  readonly generations: number;
  readonly share: number;
}

/** Says a chance from scores and carrier chances alone, then lets the true line take its course once. */
function trial({ truth, purpose, generations, share }: Trial, seed: number): Said {
  const line = new SimulatedLine(truth);
  line.begin(new Draws(50_000 + seed));
  const history = SCENARIOS[0]!.history;
  const values = new MeritValues(line, history);
  values.begin();
  const believed = values.beliefOfFounders(truth);
  const real = knownTruth(line);
  const route = siblingRoute(0, 1, { generations, parentGenerations: 1 });
  const goal = { share, ceiling: 1 };
  const run = (belief: LineBelief, times: number, from: number): RouteTally => {
    const world = new SimulatedLine(belief);
    const judge = new FishJudge(world, purpose);
    const tally = new RouteTally(generations);
    for (let k = 0; k < times; k++)
      tally.add(
        runRoute(world, judge, route, goal, { fryPerBrood: FRY, draws: new Draws(from + k) }),
      );
    return tally;
  };
  return {
    chance: run(believed, SIMULATIONS, 7_000_000 + seed * 1_000).figures().chance,
    came: run(real, 1, 900_000 + seed).figures().chance === 1,
  };
}

/** Chances of all sizes of three kinds: a class of young, a standard passed, a route's success. */
export function calibrate(trials: number): Kind[] {
  const { truth, purpose } = SCENARIOS[0]!;
  const locus = recessive('rare');
  const carriers = (chance: number): LineBelief => ({
    ...truth,
    loci: [
      {
        locus,
        groups: truth.fish.map((_, k) => ({
          fish: [k],
          outcomes: [
            { genotypes: [['A', 'a'] as const], probability: chance },
            { genotypes: [['A', 'A'] as const], probability: 1 - chance },
          ],
        })),
      },
    ],
  });
  const standard = (low: number): Trial['purpose'] => ({
    ...purpose,
    traits: [{ ...purpose.traits[0]!, low }],
  });
  const all = (make: (pick: Draws) => Trial, from: number): Said[] =>
    Array.from({ length: trials }, (_, k) => trial(make(new Draws(from + k)), from + k));
  return [
    {
      name: 'a class of young',
      said: all(
        (pick) => ({
          truth: carriers(0.1 + 0.9 * pick.uniform()),
          purpose: { ...purpose, looks: [showing('rare', { required: true })] },
          generations: 1,
          share: 1 / FRY,
        }),
        100_000,
      ),
    },
    {
      name: 'a standard passed',
      said: all(
        (pick) => ({ truth, purpose: standard(12 * pick.uniform()), generations: 1, share: 0.4 }),
        200_000,
      ),
    },
    {
      name: "a route's success",
      said: all(
        (pick) => ({
          truth,
          purpose: standard(3 + 14 * pick.uniform()),
          generations: 3,
          share: 0.5,
        }),
        300_000,
      ),
    },
  ];
}
