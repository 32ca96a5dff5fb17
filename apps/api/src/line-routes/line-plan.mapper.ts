import type { PlanParent, PlanProblem, PlanStep } from '@linewright/mating';
import { toComputation } from '../jobs/computation.mapper.js';
import { toWithdrawal } from '../shapes/history.model.js';
import { toLine } from '../shapes/line.mapper.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { MONTH_DAYS } from './generation-days.js';
import type { PlanStanding } from './plan-course.service.js';
import type {
  LinePlanModel,
  PlanProblemModel,
  PlanStepModel,
  SpawnOfPlanModel,
} from './line-plan.model.js';
import type { RouteParentModel } from './line-routes.model.js';

type Named = ReadonlyMap<string, NamedFishModel>;

/** Ids of all fish that a plan names. */
export const fishOfPlan = ({ row: { content }, course }: PlanStanding): string[] => [
  ...new Set([
    ...content.fish,
    ...content.broods.flatMap(({ sire, dam }) =>
      [sire, dam].flatMap((parent) => (parent.kind === 'fish' ? [parent.id] : [])),
    ),
    ...course.problems.flatMap((problem) =>
      problem.kind === 'parent-gone' ? [problem.fishId] : [],
    ),
  ]),
];

export const toPlan = (standing: PlanStanding, named: Named): LinePlanModel => {
  const { row, line, course, spawns, waiting } = standing;
  const { content } = row;
  return {
    ...{ id: row.id, revision: row.revision, withdrawn: toWithdrawal(row), line: toLine(line) },
    ...{ adoptedOn: row.adoptedOn, purposeVersion: row.purposeVersion, note: row.note },
    ...{ scheme: content.scheme, fish: content.fish.map((id) => named.get(id)!) },
    ...{ share: content.share, ceiling: content.ceiling, fryPerBrood: content.fryPerBrood },
    ...{ chance: content.chance, low: content.low, high: content.high, fry: content.fry },
    simulations: content.simulations,
    meanMonths:
      content.meanGenerations === null
        ? null
        : (content.meanGenerations * content.daysPerGeneration) / MONTH_DAYS,
    ...{ state: course.state, reachedBy: course.reachedBy },
    generationsDone: course.generationsDone,
    chanceLeft: course.chanceLeft,
    steps: course.steps.map((step) => toStep(step, standing, named)),
    problems: course.problems.map((problem) => toProblem(problem, named)),
    spawns: spawns.filter(({ failed }) => !failed).map(toSpawn),
    spawnCount: spawns[0]?.found ?? 0,
    waiting: waiting === null ? null : toComputation(waiting),
  };
};

const toSpawn = ({ id, tag, on }: SpawnOfPlanModel): SpawnOfPlanModel => ({ id, tag, on });

const toStep = (
  { brood, ...step }: PlanStep,
  { row: { content }, spawns, inbreeding, young }: PlanStanding,
  named: Named,
): PlanStepModel => {
  const planned = content.broods[brood]!;
  const spawn = spawns.find(({ id }) => id === step.spawnId);
  const parent = (one: PlanParent): RouteParentModel => {
    if (one.kind === 'fish')
      return { fish: named.get(one.id)!, fromGeneration: null, fromBrood: null };
    const { generation } = content.broods[one.brood]!;
    const first = content.broods.findIndex((other) => other.generation === generation);
    return { fish: null, fromGeneration: generation, fromBrood: one.brood - first + 1 };
  };
  return {
    ...{ brood, generation: planned.generation },
    ...{ sire: parent(planned.sire), dam: parent(planned.dam) },
    ...{ state: step.state, due: step.due, chosen: step.chosen, daysLate: step.daysLate },
    spawn: spawn === undefined ? null : toSpawn(spawn),
    failedSpawns: spawns.filter(({ id }) => step.failed.includes(id)).map(toSpawn),
    plannedInbreeding: planned.inbreeding,
    inbreeding: spawn === undefined ? null : (inbreeding.get(spawn.id) ?? null),
    ...{ counted: spawn?.counted ?? null, recorded: spawn?.recorded ?? null },
    unsorted: spawn?.unsorted ?? null,
    passed: spawn === undefined ? null : (young.get(spawn.id)?.passed ?? 0),
    notPassed: spawn === undefined ? null : (young.get(spawn.id)?.notPassed ?? 0),
    ...{ males: spawn?.males ?? null, females: spawn?.females ?? null },
    chanceByThen: content.byGeneration[planned.generation - 1] ?? 0,
  };
};

const toProblem = (problem: PlanProblem, named: Named): PlanProblemModel => ({
  kind: problem.kind,
  brood: problem.kind === 'purpose-changed' ? null : problem.brood,
  days: problem.kind === 'late' ? problem.days : null,
  fish: problem.kind === 'parent-gone' ? (named.get(problem.fishId) ?? null) : null,
  sex: problem.kind === 'no-young' ? problem.sex : null,
  allele: problem.kind === 'allele-not-found' ? problem.allele : null,
  chance: problem.kind === 'allele-not-found' ? problem.chance : null,
  inbreeding: problem.kind === 'inbreeding' ? problem.inbreeding : null,
  plannedInbreeding: problem.kind === 'inbreeding' ? problem.planned : null,
  version: problem.kind === 'purpose-changed' ? problem.version : null,
});
