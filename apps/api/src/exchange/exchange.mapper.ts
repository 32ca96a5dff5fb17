import { PROBLEMS_SHOWN } from './exchange.service.js';
import type { ImportPreviewModel } from './exchange.model.js';
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
