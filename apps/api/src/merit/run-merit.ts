import { notesOn, partWays, type WrittenModel, writtenModel } from '@linewright/merit';
import type { Pedigree } from '@linewright/pedigree';
import { linearModel, orRefusal, type Progress, remlOf } from './linear-model.js';
import type { Comparison, MeritAnswer, ValuesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { fishWorthScoring, narrowings, notForeseen } from './narrowing.js';
import { runLarge } from './run-large.js';
import { hasClasses, pedigreeOfTask, scoresOfTask } from './scores-of-task.js';
import { thresholdModel } from './threshold-model.js';
import { priorOf } from './trait-settings.js';
import { trendsOf } from './trend.js';

/** Numbers in a factor of the equations, eight bytes each, beyond which they are iterated: 400 MB. */
const MOST_ENTRIES = 5e7;

/** Whether the equations of so many fish can be factored in memory; true when it cannot even be asked, which the model then tells. */
const fits = (written: WrittenModel | undefined, most: number): boolean =>
  written === undefined ||
  (orRefusal(() => written.equations.affordable(most) !== null).answer ?? true);

/**
 * All figures of a trait in one go; of a stock that is too large for it, those that can be worked out otherwise.
 *
 * @param mostEntries numbers in a factor beyond which the equations are iterated.
 */
export const runMerit = (
  task: MeritTask,
  onProgress: Progress = () => undefined,
  mostEntries = MOST_ENTRIES,
): MeritAnswer => {
  const pedigree = pedigreeOfTask(task);
  const scores = scoresOfTask(task, pedigree);
  // None where nothing can be written of these scores: each estimate then says why.
  const written = orRefusal(() => writtenModel(scores)).answer ?? undefined;
  if (!fits(written, mostEntries)) return runLarge(task, scores, onProgress);
  const prior = priorOf(task);
  const classed = hasClasses(task);
  const half = classed ? 0.45 : 0.9;
  const linear = orRefusal(() =>
    linearModel(task, scores, prior, (share) => onProgress(half * share), written),
  );
  const threshold = classed
    ? orRefusal(() =>
        thresholdModel(task, scores, prior, (share) => onProgress(half * (1 + share))),
      )
    : { answer: null, refusal: null };
  const reml = orRefusal(() => remlOf(scores, written));
  onProgress(0.95);
  const { worth, leftOut } =
    linear.answer === null
      ? { worth: [], leftOut: [] }
      : fishWorthScoring(task, linear.answer.solved);
  const comparison =
    linear.answer === null || threshold.answer === null
      ? null
      : compare(pedigree, task, linear.answer.model.values, threshold.answer.values);
  return {
    linear: linear.answer?.model ?? null,
    linearRefusal: linear.refusal,
    reml: reml.answer,
    remlRefusal: reml.refusal,
    threshold: threshold.answer,
    thresholdRefusal: threshold.refusal,
    shown: threshold.answer === null ? 'linear' : 'threshold',
    comparison,
    notes: [
      ...(linear.answer === null ? [] : notesOn(scores, linear.answer.solved)),
      ...(comparison?.notes ?? []),
    ],
    trends:
      linear.answer === null
        ? []
        : trendsOf(task, linear.answer.solved, linear.answer.model.heritability.mean),
    worth,
    narrowing:
      linear.answer === null ? [] : narrowings(task, scores, linear.answer.posterior, worth),
    leftOut: [...leftOut, ...notForeseen(task)],
    wholeStock: true,
  };
};

/** The same without a word of how far it is, for a thread of a request. */
export const answerOf = (task: MeritTask): MeritAnswer => runMerit(task);

const compare = (
  { sire, dam }: Pedigree,
  task: MeritTask,
  linear: ValuesAnswer,
  threshold: ValuesAnswer,
): Comparison => {
  const scored = new Set(task.fish);
  for (const index of task.fish)
    for (const parent of [sire[index]!, dam[index]!]) if (parent >= 0) scored.add(parent);
  const { rankCorrelation, bestDiffer, notes } = partWays(threshold.value, linear.value, [
    ...scored,
  ]);
  return {
    rankCorrelation: Number.isFinite(rankCorrelation) ? rankCorrelation : null,
    partWays: bestDiffer.length > 0,
    notes,
  };
};
