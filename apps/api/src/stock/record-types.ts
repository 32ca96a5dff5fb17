import type { RecordType } from './record-store.js';
import { CareRecordRow, CareTemplateRow } from './rows/care.entity.js';
import { CommentRow } from './rows/comment.entity.js';
import { FishClaimRow } from './rows/fish-claim.entity.js';
import { FishDealRow } from './rows/fish-deal.entity.js';
import { FishRow } from './rows/fish.entity.js';
import { GenotypeRow } from './rows/genotype.entity.js';
import { HandOverRow } from './rows/hand-over.entity.js';
import { LineRow } from './rows/line.entity.js';
import { LineRouteRow } from './rows/line-route.entity.js';
import { LocusSettingRow } from './rows/locus-setting.entity.js';
import { OwnLocusRow } from './rows/own-locus.entity.js';
import { PairingRow } from './rows/pairing.entity.js';
import { PhenotypeRow } from './rows/phenotype.entity.js';
import { PhotoRow } from './rows/photo.entity.js';
import { ScoreRow, TraitDefinitionRow } from './rows/score.entity.js';
import { ScoreSheetRow, SheetScoringRow } from './rows/sheet.entity.js';
import {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from './rows/spawn-log.entity.js';
import { ShowResultRow } from './rows/show-result.entity.js';
import { RoundRow } from './rows/round.entity.js';
import { ScoringDrawRow } from './rows/scoring-draw.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';
import { TraitModelRow } from './rows/trait-model.entity.js';
import { VesselRow } from './rows/vessel.entity.js';
import { WaterReadingRow } from './rows/water-reading.entity.js';

/** Every kind of record, by which features name it to the store; the class of its rows stays in the floor. */

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

export const roundRecord: RecordType<RoundRow> = { target: RoundRow, kind: 'round', word: 'round' };

export const routeRecord: RecordType<LineRouteRow> = {
  target: LineRouteRow,
  kind: 'line_route',
  word: 'plan of a line',
};

export const pairingRecord: RecordType<PairingRow> = {
  target: PairingRow,
  kind: 'pairing',
  word: 'planned pairing',
};

export const phenotypeRecord: RecordType<PhenotypeRow> = {
  target: PhenotypeRow,
  kind: 'phenotype',
  word: 'phenotype',
};

export const genotypeRecord: RecordType<GenotypeRow> = {
  target: GenotypeRow,
  kind: 'genotype',
  word: 'genotype',
};

export const ownLocusRecord: RecordType<OwnLocusRow> = {
  target: OwnLocusRow,
  kind: 'locus',
  word: 'locus',
};

export const locusSettingRecord: RecordType<LocusSettingRow> = {
  target: LocusSettingRow,
  kind: 'locus_setting',
  word: 'setting',
};

export const careTemplateRecord: RecordType<CareTemplateRow> = {
  target: CareTemplateRow,
  kind: 'care_template',
  word: 'calendar',
};

export const careRecord: RecordType<CareRecordRow> = {
  target: CareRecordRow,
  kind: 'care_record',
  word: 'record of the log',
};

export const eventRecord: RecordType<SpawnEventRow> = {
  target: SpawnEventRow,
  kind: 'spawn_event',
  word: 'event',
};

export const countRecord: RecordType<SpawnCountRow> = {
  target: SpawnCountRow,
  kind: 'spawn_count',
  word: 'count',
};

export const waterReadingRecord: RecordType<WaterReadingRow> = {
  target: WaterReadingRow,
  kind: 'water_reading',
  word: 'reading',
};

export const vesselRecord: RecordType<VesselRow> = {
  target: VesselRow,
  kind: 'vessel',
  word: 'vessel',
};

export const commentRecord: RecordType<CommentRow> = {
  target: CommentRow,
  kind: 'comment',
  word: 'comment',
};

export const photoRecord: RecordType<PhotoRow> = {
  target: PhotoRow,
  kind: 'photo',
  word: 'photo',
};

export const handOverRecord: RecordType<HandOverRow> = {
  target: HandOverRow,
  kind: 'hand_over',
  word: 'hand-over',
};

export const fishClaimRecord: RecordType<FishClaimRow> = {
  target: FishClaimRow,
  kind: 'fish_claim',
  word: 'claim',
};

export const fishDealRecord: RecordType<FishDealRow> = {
  target: FishDealRow,
  kind: 'fish_deal',
  word: 'price',
};

export const showResultRecord: RecordType<ShowResultRow> = {
  target: ShowResultRow,
  kind: 'show_result',
  word: 'result of a show',
};
