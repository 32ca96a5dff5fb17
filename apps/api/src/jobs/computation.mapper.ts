import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { ComputationModel, ComputationState } from './computation.model.js';

export const toComputation = (row: ComputationRow): ComputationModel => ({
  id: row.id,
  kind: row.kind,
  subject: row.subject,
  state: row.state as ComputationState,
  progress: row.progress,
  askedBy: row.askedBy,
  createdAt: row.createdAt,
  startedAt: row.startedAt,
  endedAt: row.endedAt,
  errorCode: row.errorCode,
  errorMessage: row.errorMessage,
});
