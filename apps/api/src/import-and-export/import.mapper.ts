import { type AnswerDone, noRepairs, type Repairs } from '@linewright/repair';
import { toComputation } from '../jobs/computation.mapper.js';
import { type ImportCause, causesOf } from './import-causes.js';
import type {
  ImportCauseModel,
  ImportDaysModel,
  ImportPreviewModel,
  ImportRunModel,
} from './import.model.js';
import type { ImportRepairsInput, ImportRepairsModel } from './import-repairs.model.js';
import { PROBLEMS_SHOWN } from './import-problem.js';
import type { ImportRun } from './import-run.js';
import type { PastImportRow } from '../stock/rows/past-import.entity.js';
import type { PastImportModel, TakeBackPreviewModel } from './past-import.model.js';
import type { ImportPlan } from './plan-import.js';
import type { TakeBackState } from '../stock/take-back.js';

const toCause = ({ values, rows, answers, ...cause }: ImportCause): ImportCauseModel => ({
  ...cause,
  answers: [...answers],
  values: values.map(({ lines, offers, ...value }, index) => ({
    ...value,
    row: rows[index] ?? '',
    lines: [...lines],
    offers: [...offers],
  })),
});

const toRepairs = (
  { answers, values, cells, leftOut, fish, ...said }: Repairs,
  answered: readonly AnswerDone[],
): ImportRepairsModel => ({
  ...said,
  answers: answers.map((one) => ({
    ...one,
    count:
      answered.find(
        (done) =>
          done.code === one.code && done.column === one.column && done.answer === one.answer,
      )?.count ?? 0,
  })),
  values: [...values],
  cells: [...cells],
  leftOut: [...leftOut],
  fish: [...fish],
});

/** What was decided about a file, as it was sent. */
export const fromRepairs = ({
  answers,
  values,
  cells,
  leftOut,
  fish,
  ...said
}: ImportRepairsInput): Repairs => ({
  dayOrder: said.dayOrder ?? null,
  separator: said.separator ?? null,
  unmarked: said.unmarked ?? null,
  answers: (answers ?? []).map(({ code, column, answer }) => ({
    ...{ code, answer },
    column: column ?? null,
  })),
  values: values ?? [],
  cells: cells ?? [],
  leftOut: leftOut ?? [],
  fish: fish ?? [],
});

const toDays = ({ days }: ImportPlan, said: Repairs['dayOrder']): ImportDaysModel | null =>
  days === null
    ? null
    : {
        open: days.open,
        order: said ?? days.proven,
        proof: said === null && days.proven !== null ? (days.proofs[0]?.text ?? null) : null,
      };

const toCauses = (plan: ImportPlan): Pick<ImportPreviewModel, 'causes' | 'doubts'> => {
  const { causes, doubts } = causesOf(plan);
  return { causes: causes.map(toCause), doubts: doubts.map(toCause) };
};

/** What a preview says of the file itself. */
interface LookedAt {
  readonly fileName: string;
  readonly token: string;
  readonly sampleRows: string[][];
  readonly repairs: Repairs;
  readonly separator: string;
  readonly remembered: ImportPreviewModel['remembered'];
}

export const toPreview = (
  plan: ImportPlan,
  { repairs, ...file }: LookedAt,
): ImportPreviewModel => ({
  ...file,
  ...toCauses(plan),
  repairs: toRepairs(repairs, plan.answered),
  days: toDays(plan, repairs.dayOrder),
  unmarked: plan.unmarked,
  rowCount: plan.rowCount,
  columns: plan.columns.map((column) => ({
    header: column.header,
    role: column.role,
    traitId: column.trait?.id ?? null,
    traitName: column.traitName,
    sample: [...column.sample],
  })),
  problems: plan.problems
    .slice(0, PROBLEMS_SHOWN)
    .map(({ line, column, code, value, message, remedy }) => ({
      ...{ line, column, code, value, message, remedy },
    })),
  problemCount: plan.problems.length,
  notes: plan.notes
    .slice(0, PROBLEMS_SHOWN)
    .map(({ line, column, code, message }) => ({ line, column, code, message })),
  noteCount: plan.notes.length,
  skippedRows: plan.skippedRows,
  ready: plan.problems.length === 0,
  newFish: plan.fish.length,
  knownFish: plan.knownFish,
  newLines: plan.lines.map((line) => line.code),
  newSpawns: plan.spawns.length,
  scores: plan.scores.length,
});

/** Answers stored before an update lack what it brought. */
const before = {
  ...{ notes: [], noteCount: 0, skippedRows: 0, causes: [], doubts: [], unmarked: 0 },
  ...{ separator: ',', days: null, remembered: null },
  repairs: toRepairs(noRepairs, []),
};

const toldPreview = (preview: ImportPreviewModel): ImportPreviewModel => ({
  ...before,
  ...preview,
  // Stored answers keep times as text.
  remembered:
    (preview.remembered ?? null) === null
      ? null
      : { ...preview.remembered!, at: new Date(preview.remembered!.at) },
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
  preview: answer?.preview === undefined ? null : toldPreview(answer.preview),
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
