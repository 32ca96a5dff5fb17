import { toComputation } from '../jobs/computation.mapper.js';
import type { ImportPreviewModel, ImportRunModel } from './import.model.js';
import { PROBLEMS_SHOWN } from './import-problem.js';
import type { ImportRun } from './import-run.js';
import type { PastImportRow } from '../stock/rows/past-import.entity.js';
import type { PastImportModel, TakeBackPreviewModel } from './past-import.model.js';
import type { ImportPlan } from './plan-import.js';
import type { TakeBackState } from '../stock/take-back.js';

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
  notes: plan.notes.slice(0, PROBLEMS_SHOWN).map((note) => ({ ...note })),
  noteCount: plan.notes.length,
  skippedRows: plan.skippedRows,
  ready: plan.problems.length === 0,
  newFish: plan.fish.length,
  knownFish: plan.knownFish,
  newLines: plan.lines.map((line) => line.code),
  newSpawns: plan.spawns.length,
  scores: plan.scores.length,
});

const noNotes = { notes: [], noteCount: 0, skippedRows: 0 };

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
  preview: answer?.preview === undefined ? null : { ...noNotes, ...answer.preview },
  // Answers stored before an update lack what it brought.
  result:
    answer?.counts === undefined
      ? null
      : { ...answer.counts, skippedRows: answer.counts.skippedRows ?? 0 },
  computation: computation === null ? null : toComputation(computation),
});

export const toPastImport = ({ counts, byName, ...row }: PastImportRow): PastImportModel => ({
  id: row.id,
  fileName: row.fileName,
  by: byName,
  at: row.at,
  fish: counts.fish,
  spawns: counts.spawns,
  lines: counts.lines,
  scores: counts.scores,
  traits: counts.traits,
  takenBackAt: row.takenBackAt,
  takenBackBy: row.takenBackBy,
  takenBackReason: row.takenBackReason,
});

export const toTakeBackPreview = (id: string, state: TakeBackState): TakeBackPreviewModel => ({
  id,
  ready: state.resting.length === 0,
  resting: state.resting.map((each) => ({ ...each, names: [...each.names] })),
  changed: state.changed,
  changedNames: [...state.changedNames],
});
