import { toComputation } from '../jobs/computation.mapper.js';
import type { ImportPreviewModel, ImportRunModel } from './exchange.model.js';
import { PROBLEMS_SHOWN } from './import-problem.js';
import type { ImportRun } from './import-runs.service.js';
import type { ImportPlan } from './plan-import.js';

export const toPreview = (
  plan: ImportPlan,
  file: { fileName: string; token: string; sampleRows: string[][] },
): ImportPreviewModel => ({
  ...file,
  rowCount: plan.rowCount,
  columns: plan.columns.map((column) => ({
    header: column.header,
    role: column.role,
    traitId: column.trait?.id ?? null,
    traitName: column.traitName,
    sample: [...column.sample],
  })),
  problems: plan.problems.slice(0, PROBLEMS_SHOWN).map((problem) => ({ ...problem })),
  problemCount: plan.problems.length,
  ready: plan.problems.length === 0,
  newFish: plan.fish.length,
  knownFish: plan.knownFish,
  newLines: plan.lines.map((line) => line.code),
  newSpawns: plan.spawns.length,
  scores: plan.scores.length,
});

export const toImportRun = ({
  id,
  purpose,
  fileName,
  answer,
  computation,
}: ImportRun): ImportRunModel => ({
  id,
  purpose,
  fileName,
  preview: answer?.preview ?? null,
  result: answer?.counts ?? null,
  computation: computation === null ? null : toComputation(computation),
});
