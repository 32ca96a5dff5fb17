import {
  Draws,
  Forecast,
  planned,
  possibleRoutes,
  RouteSearch,
  type LineBelief,
} from '@linewright/mating';

/** Fish of a line and of others, with values of three traits that are known with some error. */
function beliefOf(fish: number): LineBelief {
  const draws = new Draws(5);
  const table = (own: number, other: number): Float64Array =>
    Float64Array.from({ length: fish ** 2 }, (_, k) => (k % (fish + 1) === 0 ? own : other));
  return {
    fish: Array.from({ length: fish }, (_, k) => String(k)),
    sex: Array.from({ length: fish }, (_, k) => (k % 2 === 0 ? 'male' : 'female')),
    coancestry: table(0.55, 0.1),
    traits: ['a', 'b', 'c'].map((traitId) => ({
      traitId,
      level: 100,
      value: Float64Array.from({ length: fish }, () => 10 * draws.uniform() - 5),
      error: table(12, 3),
      additive: 30,
      commonBrood: 5,
      residual: 65,
    })),
    loci: [],
  };
}

/** Routes of 60 fish of a line and 20 of others over 5 generations, 30 young a brood; a forecast over 8 of 20 fish. */
export function run(print: (line: object) => void): void {
  const used = (): number => process.cpuUsage().user / 1_000;
  const aim = { better: 'higher', high: null, worth: 1 } as const;
  const purpose = {
    traits: ['a', 'b', 'c'].map((traitId) => ({
      ...aim,
      traitId,
      low: traitId === 'a' ? 108 : null,
    })),
    looks: [],
    ceiling: 0.3,
  };
  const belief = beliefOf(80);
  const start = used();
  const { routes } = possibleRoutes({
    ...{ belief, purpose, broods: 3, seed: 1, lengths: { generations: 5, parentGenerations: 3 } },
    ofLine: Uint8Array.from(belief.fish, (_, k) => (k < 60 ? 1 : 0)),
  });
  const goal = { share: 0.5, ceiling: 0.3 };
  const search = new RouteSearch(
    { belief, purpose, goal, fryPerBrood: 30, seed: 1, most: 2_000 },
    routes,
  );
  for (let k = 0; k < routes.length; k++) search.advance();
  print({ what: 'routes, first answer', routes: routes.length, processorMs: used() - start });
  while (search.advance());
  print({ what: 'routes, all', routes: routes.length, processorMs: used() - start });
  const before = used();
  const forecast = new Forecast({
    ...{ belief: beliefOf(20), purpose, strategy: () => planned, alleles: [], seed: 1 },
    ...{ generations: 8, broods: 3, broodsPerFish: 2, fryPerBrood: 20 },
    ...{ keptPerBrood: 2, kinshipRise: 0.05 },
  });
  forecast.advance(300);
  print({ what: 'forecast of 300 lines', processorMs: used() - before });
}
