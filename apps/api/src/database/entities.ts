import {
  CredentialRow,
  KeeperRow,
  RefusedAttemptRow,
  SessionRow,
} from '../accounts/keeper.entity.js';
import { BackupRunRow } from '../backup/backup-run.entity.js';
import { CalendarAddressRow, CareEntryRow, CareTemplateRow } from '../care/care.entity.js';
import { ReceivedEntryRow } from '../entries/received-entry.entity.js';
import { FishActRow } from '../fish/fish-act.entity.js';
import { FishRow } from '../fish/fish.entity.js';
import { GenotypeRow } from '../heredity/genotype.entity.js';
import { LocusSettingRow } from '../heredity/locus-setting.entity.js';
import { OwnLocusRow, OwnLocusVersionRow } from '../heredity/own-locus.entity.js';
import { ImportRunRow } from '../exchange/import-run.entity.js';
import { PastImportRecordRow, PastImportRow } from '../exchange/past-import.entity.js';
import { PhenotypeRow } from '../heredity/phenotype.entity.js';
import { HistoryRow } from '../history/history.entity.js';
import { ComputationRow } from '../jobs/computation.entity.js';
import { LineRow } from '../lines/line.entity.js';
import { PairingRow } from '../pairing/pairing.entity.js';
import { PhotoRow } from '../photos/photo.entity.js';
import {
  ScoreSheetRow,
  ScoreSheetVersionRow,
  SheetScoringRow,
} from '../score-sheets/sheet.entity.js';
import { ScoreRow, TraitDefinitionRow } from '../scores/score.entity.js';
import { ShareBaseRow } from '../sharing/share-base.entity.js';
import {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from '../spawns/spawn-entries.entity.js';
import { SpawnRow } from '../spawns/spawn.entity.js';
import { WaterReadingRow } from '../water/water-reading.entity.js';
import { WaterRuleRow } from '../water/water-rule.entity.js';
import { InstallStateRow } from './install-state.entity.js';

/** Every table, in one list: the data source and the drift test read it. */
export const entities = [
  InstallStateRow,
  KeeperRow,
  CredentialRow,
  SessionRow,
  RefusedAttemptRow,
  LineRow,
  FishRow,
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
  PhotoRow,
  GenotypeRow,
  PairingRow,
  HistoryRow,
  FishActRow,
  ShareBaseRow,
  PhenotypeRow,
  OwnLocusRow,
  OwnLocusVersionRow,
  LocusSettingRow,
  ComputationRow,
  CareEntryRow,
  CareTemplateRow,
  CalendarAddressRow,
  ReceivedEntryRow,
  WaterReadingRow,
  WaterRuleRow,
  ImportRunRow,
  PastImportRow,
  PastImportRecordRow,
  BackupRunRow,
];
