import {
  type AnimalScores,
  animalModel,
  Equations,
  MeritError,
  normalQuantile,
  type PartOfStock,
  partOfStock,
  solveByWork,
  type ValuesByWork,
} from '@linewright/merit';
import {
  linearModel,
  orRefusal,
  type Progress,
  ratiosOf,
  remlOf,
  short,
  varianceOf,
} from './linear-model.js';
import {
  type MeritAnswer,
  type ModelAnswer,
  PROBABILITIES,
  type ValuesAnswer,
} from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { PART, partText, taskOfPart } from './part-of-task.js';
import { hasClasses, scoresOfTask } from './scores-of-task.js';
import { priorOf } from './trait-settings.js';

/** Share of the work that the part is taken for. */
const PART_OF_WORK = 0.4;

const NOT_FOR_SO_MANY =
  'There are too many fish for the whole of the work. These are not worked out here: how each line moves from generation to generation, what to score next, and whose scores make a value.';
const NOT_IN_ORDER = 'There are too many fish to take grades in their order.';

/**
 * A stock whose equations do not fit in memory: the heritability from a part that chance draws, values of all fish at it by iteration, their errors
 * from drawn scores. What is unknown of the heritability is not in those errors, and notes say all of it.
 */
export const runLarge = (
  task: MeritTask,
  scores: AnimalScores,
  onProgress: Progress,
): MeritAnswer => {
  const part = orRefusal(() => {
    const drawn = partOfStock(scores.pedigree, task.fish, PART);
    const partTask = taskOfPart(task, scores, drawn);
    const partScores = scoresOfTask(partTask);
    const { model } = linearModel(partTask, partScores, priorOf(task), (share) =>
      onProgress(PART_OF_WORK * share),
    );
    return { drawn, model, reml: orRefusal(() => remlOf(partScores)) };
  });
  const found = orRefusal(() => {
    if (part.answer === null) throw new MeritError(part.refusal.code, part.refusal.message);
    return valuesOfAll(scores, part.answer.model, (share) =>
      onProgress(PART_OF_WORK + (1 - PART_OF_WORK) * share),
    );
  });
  const large = {
    code: 'MERIT_TOO_LARGE' as const,
    message: NOT_IN_ORDER,
  };
  return {
    linear:
      part.answer === null || found.answer === null
        ? null
        : { ...part.answer.model, ...found.answer.figures, effects: [] },
    linearRefusal: found.refusal,
    reml: part.answer?.reml.answer ?? null,
    remlRefusal: part.answer === null ? part.refusal : part.answer.reml.refusal,
    threshold: null,
    thresholdRefusal: hasClasses(task) ? large : null,
    ...{ shown: 'linear', comparison: null, trends: [], narrowing: [], worth: [] },
    notes:
      part.answer === null || found.answer === null
        ? []
        : notesOf(part.answer.drawn, found.answer.notes),
    leftOut: [NOT_FOR_SO_MANY],
    wholeStock: false,
  };
};

const notesOf = (drawn: PartOfStock, notes: ValuesByWork['notes']): MeritAnswer['notes'] => [
  {
    code: 'MERIT_FROM_PART',
    message: `${partText(drawn, 'The heritability')} What is unknown of the heritability is not in their “give or take”.`,
  },
  ...notes,
];

/** Values of all fish at the shares of the part, by iteration. */
const valuesOfAll = (
  scores: AnimalScores,
  { shares }: ModelAnswer,
  onProgress: Progress,
): {
  readonly figures: Pick<ModelAnswer, 'variance' | 'values'>;
  readonly notes: ValuesByWork['notes'];
} => {
  const animal = animalModel(scores);
  const solved = solveByWork(
    animal,
    new Equations(animal.model),
    { ratios: ratiosOf(shares) },
    {
      mostWork: 0,
      mostEntries: 0,
      onStep: (done, all) => {
        onProgress(done / all);
        return true;
      },
    },
  );
  return {
    figures: { variance: short(varianceOf(solved)), values: withBands(solved) },
    notes: solved.notes,
  };
};

const withBands = ({ values: [of] }: ValuesByWork): ValuesAnswer => {
  const { value, standardError, accuracy } = of!;
  const reach = PROBABILITIES.map((probability) => normalQuantile((1 + probability) / 2));
  return {
    value: Array.from(value, short),
    standardError: Array.from(standardError, short),
    accuracy: Array.from(accuracy, short),
    bands: Array.from(value, (middle, i) =>
      reach.flatMap((z) => [
        short(middle - z * standardError[i]!),
        short(middle + z * standardError[i]!),
      ]),
    ).flat(),
  };
};
