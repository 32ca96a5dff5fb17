import { daysBetween } from '@linewright/care';
import type { LossKind, SpawnEventKind, SpawnStage } from '../graphql/enums.js';
import { toWithdrawal } from './history.model.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import type {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from '../stock/rows/spawn-log.entity.js';
import type {
  ClassCountModel,
  SpawnCountModel,
  SpawnEventModel,
  SpawnLossModel,
  SpawnModel,
} from './spawn.model.js';

export const toSpawn = (row: SpawnRow): SpawnModel => ({
  id: row.id,
  tag: row.tag,
  spawnedOn: row.spawnedOn,
  hatchDate: row.hatchDate,
  purpose: row.purpose,
  note: row.note,
  mixedOrigin: row.mixedOrigin ?? false,
  failed: row.failed,
  failedReason: row.failedReason,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  personId: row.personId,
  lineId: row.lineId,
  sireId: row.sireId,
  damId: row.damId,
  pairingId: row.pairingId,
});

export const toSpawnEvent = (row: SpawnEventRow): SpawnEventModel => ({
  id: row.id,
  kind: row.kind as SpawnEventKind,
  at: row.at,
  note: row.note,
  spawnId: row.spawnId,
});

export const toSpawnCount = (row: SpawnCountRow): SpawnCountModel => ({
  id: row.id,
  stage: row.stage as SpawnStage,
  countedOn: row.countedOn,
  number: row.number,
  note: row.note,
  spawnId: row.spawnId,
});

export const toSpawnLoss = (row: SpawnLossRow): SpawnLossModel => ({
  id: row.id,
  kind: row.kind as LossKind,
  on: row.onDate,
  number: row.number,
  reason: row.reason,
  heritable: row.heritable,
  locusId: row.locusId,
  phenotype: row.phenotype,
  note: row.note,
  spawnId: row.spawnId,
});

export const toClassCount = (row: ClassCountRow, hatchDate: string | null): ClassCountModel => ({
  id: row.id,
  locusIds: row.locusIds,
  phenotype: row.phenotype,
  number: row.number,
  countedOn: row.countedOn,
  ageDays: hatchDate === null ? null : daysBetween(hatchDate, row.countedOn),
  note: row.note,
  spawnId: row.spawnId,
});
