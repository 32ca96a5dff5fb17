import type { ParentChoice, RouteStanding } from '@linewright/mating';
import { toComputation } from '../jobs/computation.mapper.js';
import { toLine } from '../shapes/line.mapper.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { DAYS_BASIS, generationDays, MONTH_DAYS } from './generation-days.js';
import type { RoutesStanding } from './route-search.service.js';
import type {
  LineRouteModel,
  LineRoutesModel,
  RouteParentModel,
  SimulatedCoursesModel,
} from './line-routes.model.js';

const MOST_ROUTES = 60;

/** Ids of all fish that an answer names. */
export const fishOfRoutes = ({ answer }: RoutesStanding): string[] =>
  answer === null
    ? []
    : [...new Set(answer.routes.slice(0, MOST_ROUTES).flatMap(({ route }) => route.fish))].map(
        (at) => answer.fish[at]!,
      );

export const toRoutes = (
  standing: RoutesStanding,
  named: ReadonlyMap<string, NamedFishModel>,
): LineRoutesModel => {
  const { line, purpose, leftOut, forNow, whyNone, waiting, answer } = standing;
  const days = generationDays(purpose.content.rules);
  const fish = (at: number): NamedFishModel => named.get(answer!.fish[at]!)!;
  return {
    line: toLine(line),
    purposeVersion: purpose.version,
    whyNone: whyNone ?? (answer !== null && answer.routes.length === 0 ? whyNoPair(answer) : null),
    waiting: waiting === null ? null : toComputation(waiting),
    routes: (answer?.routes ?? []).slice(0, MOST_ROUTES).map((one) => toRoute(one, fish, days)),
    pairs: answer?.pairs ?? 0,
    pairsTried: answer?.pairsTried ?? 0,
    overCeiling: answer?.overCeiling ?? 0,
    outcrosses: answer?.outcrosses ?? 0,
    outcrossesTried: answer?.outcrossesTried ?? 0,
    leftOut: [...leftOut],
    forNow: [...forNow],
    daysPerGeneration: days,
    daysBasis: DAYS_BASIS,
  };
};

const whyNoPair = ({ overCeiling }: { readonly overCeiling: number }): string =>
  `All ${overCeiling} pairs of the line would pass the ceiling on F in their first brood: raise the ceiling, or let crosses to other lines be looked at.`;

const toRoute = (
  { route, ...figures }: RouteStanding,
  fish: (at: number) => NamedFishModel,
  days: number,
): LineRouteModel => ({
  key: routeKey(route, (at) => fish(at).id),
  scheme: route.scheme,
  fish: route.fish.map(fish),
  broods: route.steps.flatMap(({ broods }, step) =>
    broods.map(({ sire, dam }) => ({
      generation: step + 1,
      sire: toParent(sire, fish),
      dam: toParent(dam, fish),
    })),
  ),
  ...toChances(figures, days),
  meanGenerations: figures.generations,
  passing: figures.passing,
  endedByCeiling: figures.endedByCeiling,
  droppedAfter: figures.droppedAfter,
});

/** How likely simulated courses reach their target, and what they take, `days` from one generation to the next. */
export const toChances = (
  figures: Omit<RouteStanding, 'route'>,
  days: number,
): SimulatedCoursesModel & Pick<LineRouteModel, 'chance' | 'byGeneration' | 'meanMonths'> => ({
  chance: figures.chance,
  standardError: figures.standardError,
  low: figures.low,
  high: figures.high,
  byGeneration: [...figures.byGeneration],
  simulations: figures.simulations,
  meanMonths: figures.generations === null ? null : (figures.generations * days) / MONTH_DAYS,
  fry: figures.fry,
  inbreeding: figures.inbreeding,
});

/** Names a route within a search. */
export const routeKey = (route: RouteStanding['route'], idOf: (at: number) => string): string =>
  JSON.stringify([route.scheme, route.fish.map(idOf), lengthsApart(route)]);

/** Generations with two broods: sub-lines held apart for different times are different routes. */
const lengthsApart = ({ steps }: RouteStanding['route']): number =>
  steps.filter(({ broods }) => broods.length > 1).length;

const toParent = (choice: ParentChoice, fish: (at: number) => NamedFishModel): RouteParentModel =>
  choice.kind === 'fish'
    ? { fish: fish(choice.fish), fromGeneration: null, fromBrood: null }
    : { fish: null, fromGeneration: choice.step + 1, fromBrood: choice.brood + 1 };
