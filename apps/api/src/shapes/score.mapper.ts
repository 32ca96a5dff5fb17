import { toWithdrawal } from './history.model.js';
import type { MarkingOnPhoto, ScoreRow, TraitDefinitionRow } from '../stock/rows/score.entity.js';
import type { MarkingModel } from './marking.model.js';
import type { ScoreModel, TraitDefinitionModel } from './score.model.js';

export const toTrait = (row: TraitDefinitionRow): TraitDefinitionModel => ({
  id: row.id,
  key: row.key,
  name: row.name,
  kind: row.kind,
  unit: row.unit,
  minimum: row.minimum,
  maximum: row.maximum,
  higherIsBetter: row.higherIsBetter,
  fromAgeDays: row.fromAgeDays,
  toAgeDays: row.toAgeDays,
  description: row.description,
  grades: [...(row.grades ?? [])],
  version: row.version,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
});

export const toScore = (row: ScoreRow & { corrected: boolean }): ScoreModel => ({
  id: row.id,
  traitVersion: row.traitVersion,
  value: row.value,
  scoredOn: row.scoredOn,
  ageDays: row.ageDays,
  scorer: row.scorer,
  note: row.note,
  corrects: row.correctsId,
  corrected: row.corrected,
  withdrawn: toWithdrawal(row),
  fishId: row.fishId,
  traitId: row.traitId,
  marking: toMarking(row.marking),
});

const toMarking = (marking: MarkingOnPhoto | null): MarkingModel | null =>
  marking === null
    ? null
    : {
        photoId: marking.photoId,
        kind: marking.kind,
        points: [...marking.points],
        heads: marking.heads ?? null,
        scale: marking.scale ?? null,
        colour: marking.colour ?? null,
        flat: marking.flat,
      };
