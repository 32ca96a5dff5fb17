import {
  CredentialRow,
  InvitationRow,
  PersonRow,
  RefusedAttemptRow,
  SessionRow,
} from './rows/person.entity.js';
import {
  PasskeyChallengeRow,
  PasskeyRow,
  ProgramTokenRow,
  SecondStepRow,
  SpareCodeRow,
} from './rows/way-in.entity.js';
import { BackupRunRow } from './rows/backup-run.entity.js';
import { CalendarAddressRow, CareRecordRow, CareTemplateRow } from './rows/care.entity.js';
import { ReceivedEntryRow } from './rows/received-entry.entity.js';
import { FishActRow } from './rows/fish-act.entity.js';
import { FishClaimRow } from './rows/fish-claim.entity.js';
import { ShowResultRow } from './rows/show-result.entity.js';
import { FishDealRow } from './rows/fish-deal.entity.js';
import { FishRow } from './rows/fish.entity.js';
import { GenotypeRow } from './rows/genotype.entity.js';
import { LineRouteRow } from './rows/line-route.entity.js';
import { LocusSettingRow } from './rows/locus-setting.entity.js';
import { OwnLocusRow, OwnLocusVersionRow } from './rows/own-locus.entity.js';
import { ImportRunRow } from './rows/import-run.entity.js';
import { ImportShapeRow } from './rows/import-shape.entity.js';
import { SavedSearchRow } from './rows/saved-search.entity.js';
import { PastImportRecordRow, PastImportRow } from './rows/past-import.entity.js';
import { PhenotypeRow } from './rows/phenotype.entity.js';
import { HandOverRow } from './rows/hand-over.entity.js';
import { HistoryRow } from './rows/history.entity.js';
import { ComputationRow } from './rows/computation.entity.js';
import { ClubFigureRow, ClubLineRow, ClubRequestRow } from './rows/club.entity.js';
import { CommentRow } from './rows/comment.entity.js';
import { KeptLineRow, LineGrantRow } from './rows/line-grant.entity.js';
import { LinePurposeRow } from './rows/line-purpose.entity.js';
import { LineRow } from './rows/line.entity.js';
import { LineExchangeRow } from './rows/line-exchange.entity.js';
import { PartnerInstallRow } from './rows/partner-install.entity.js';
import { PairingRow } from './rows/pairing.entity.js';
import { RoundPairRow, RoundRow } from './rows/round.entity.js';
import { PhotoRow } from './rows/photo.entity.js';
import { ScoreSheetRow, ScoreSheetVersionRow, SheetScoringRow } from './rows/sheet.entity.js';
import { ScoreRow, TraitDefinitionRow } from './rows/score.entity.js';
import { ScoringDrawRow } from './rows/scoring-draw.entity.js';
import { TraitModelRow } from './rows/trait-model.entity.js';
import { ShareBaseRow } from './rows/share-base.entity.js';
import {
  ErasedRecordRow,
  RecordStampRow,
  ShareInstallRow,
  ShareStateRow,
} from './rows/share-state.entity.js';
import {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from './rows/spawn-log.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';
import { VesselRow, VesselStayRow } from './rows/vessel.entity.js';
import { WaterReadingRow } from './rows/water-reading.entity.js';
import { WaterRuleRow } from './rows/water-rule.entity.js';
import { InstallStateRow } from '../database/install-state.entity.js';

/** Every table, in one list: the data source and the drift test read it. */
export const entities = [
  InstallStateRow,
  PersonRow,
  CredentialRow,
  InvitationRow,
  SessionRow,
  SecondStepRow,
  SpareCodeRow,
  PasskeyRow,
  PasskeyChallengeRow,
  ProgramTokenRow,
  RefusedAttemptRow,
  LineRow,
  LineGrantRow,
  KeptLineRow,
  ClubLineRow,
  ClubFigureRow,
  ClubRequestRow,
  CommentRow,
  PartnerInstallRow,
  LineExchangeRow,
  LinePurposeRow,
  FishRow,
  HandOverRow,
  FishClaimRow,
  FishDealRow,
  ShowResultRow,
  SpawnRow,
  SpawnEventRow,
  SpawnCountRow,
  SpawnLossRow,
  ClassCountRow,
  TraitDefinitionRow,
  ScoreSheetRow,
  ScoreSheetVersionRow,
  SheetScoringRow,
  ScoreRow,
  TraitModelRow,
  ScoringDrawRow,
  PhotoRow,
  GenotypeRow,
  PairingRow,
  RoundRow,
  RoundPairRow,
  LineRouteRow,
  HistoryRow,
  FishActRow,
  ShareBaseRow,
  ShareStateRow,
  ShareInstallRow,
  RecordStampRow,
  ErasedRecordRow,
  PhenotypeRow,
  OwnLocusRow,
  OwnLocusVersionRow,
  LocusSettingRow,
  ComputationRow,
  CareRecordRow,
  CareTemplateRow,
  CalendarAddressRow,
  ReceivedEntryRow,
  VesselStayRow,
  WaterReadingRow,
  WaterRuleRow,
  VesselRow,
  ImportRunRow,
  ImportShapeRow,
  SavedSearchRow,
  PastImportRow,
  PastImportRecordRow,
  BackupRunRow,
];
