import { type SheetTotal, sheetTotal } from '@linewright/merit';
import { toWithdrawal } from '../../shapes/history.model.js';
import { type KnownScore, isStanding } from '../../stock/score.loader.js';
import type { FaultSeverity, SheetFaultContent } from '../../stock/rows/sheet-content.js';
import type {
  ScoreSheetRow,
  ScoreSheetVersionRow,
  SheetScoringRow,
} from '../../stock/rows/sheet.entity.js';
import type {
  ScoreSheetModel,
  ScoreSheetVersionModel,
  SheetFaultModel,
  SheetScoringModel,
  SheetTotalModel,
} from './sheet.model.js';

export const toSheet = (row: ScoreSheetRow): ScoreSheetModel => ({
  id: row.id,
  name: row.name,
  description: row.description,
  version: row.version,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
});

const toFault = (fault: SheetFaultContent, row: ScoreSheetVersionRow): SheetFaultModel => ({
  ...fault,
  points: row.deductions[fault.severity] ?? null,
});

export const toSheetVersion = (row: ScoreSheetVersionRow): ScoreSheetVersionModel => ({
  version: row.version,
  madeAt: row.createdAt,
  fromAgeDays: row.fromAgeDays,
  toAgeDays: row.toAgeDays,
  lines: row.lines.map((line) => ({ ...line })),
  faults: row.faults.map((fault) => toFault(fault, row)),
  deductions: Object.entries(row.deductions).map(([severity, points]) => ({
    severity: severity as FaultSeverity,
    points,
  })),
});

export const toScoring = (row: SheetScoringRow): SheetScoringModel => ({
  id: row.id,
  sheetVersion: row.sheetVersion,
  scoredOn: row.scoredOn,
  ageDays: row.ageDays,
  scorer: row.scorer,
  note: row.note,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  fishId: row.fishId,
  sheetId: row.sheetId,
  faultIds: [...row.faultIds],
});

export const seenFaults = (
  faultIds: readonly string[],
  version: ScoreSheetVersionRow,
): SheetFaultModel[] => {
  const seen = new Set(faultIds);
  return version.faults.filter((f) => seen.has(f.id)).map((f) => toFault(f, version));
};

const computed = (
  version: ScoreSheetVersionRow,
  scores: readonly KnownScore[],
  faults: readonly SheetFaultModel[],
): SheetTotal => {
  const standing = scores.filter(isStanding);
  return sheetTotal(
    version.lines.map(({ traitId, ...line }) => ({ trait: traitId, ...line })),
    new Map(standing.map((score) => [score.traitId, score.value])),
    faults.map(({ name, severity, points }) => ({
      name,
      disqualifying: severity === 'disqualifying',
      points,
    })),
  );
};

export const toTotal = (
  version: ScoreSheetVersionRow,
  scores: readonly KnownScore[],
  faults: readonly SheetFaultModel[],
): SheetTotalModel => {
  const { parts, missing, ...total } = computed(version, scores, faults);
  return {
    ...total,
    missing: missing.length,
    equalWeights: version.lines.every((line) => line.weight === null),
    parts: parts.map(({ trait, ...part }) => ({ traitId: trait, ...part })),
  };
};
