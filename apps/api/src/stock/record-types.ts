import type { RecordType } from './record-store.js';
import { FishRow } from './rows/fish.entity.js';
import { LineRow } from './rows/line.entity.js';
import { ScoreRow, TraitDefinitionRow } from './rows/score.entity.js';
import { ScoreSheetRow, SheetScoringRow } from './rows/sheet.entity.js';
import { ClassCountRow, SpawnLossRow } from './rows/spawn-entries.entity.js';
import { ScoringDrawRow } from './rows/scoring-draw.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';
import { TraitModelRow } from './rows/trait-model.entity.js';

/** Kinds of records that more than one feature writes; the others stand with their feature. */

export const fishRecord: RecordType<FishRow> = { target: FishRow, kind: 'fish', word: 'fish' };

export const spawnRecord: RecordType<SpawnRow> = { target: SpawnRow, kind: 'spawn', word: 'spawn' };

export const lineRecord: RecordType<LineRow> = { target: LineRow, kind: 'line', word: 'line' };

export const traitRecord: RecordType<TraitDefinitionRow> = {
  target: TraitDefinitionRow,
  kind: 'trait',
  word: 'trait',
};

export const scoreRecord: RecordType<ScoreRow> = { target: ScoreRow, kind: 'score', word: 'score' };

export const sheetRecord: RecordType<ScoreSheetRow> = {
  target: ScoreSheetRow,
  kind: 'score_sheet',
  word: 'score sheet',
};

export const scoringRecord: RecordType<SheetScoringRow> = {
  target: SheetScoringRow,
  kind: 'sheet_scoring',
  word: 'look on a score sheet',
};

export const traitModelRecord: RecordType<TraitModelRow> = {
  target: TraitModelRow,
  kind: 'trait_model',
  word: 'model of a trait',
};

export const scoringDrawRecord: RecordType<ScoringDrawRow> = {
  target: ScoringDrawRow,
  kind: 'scoring_draw',
  word: 'draw for scoring',
};

export const lossRecord: RecordType<SpawnLossRow> = {
  target: SpawnLossRow,
  kind: 'spawn_loss',
  word: 'loss',
};

export const classCountRecord: RecordType<ClassCountRow> = {
  target: ClassCountRow,
  kind: 'class_count',
  word: 'class count',
};
