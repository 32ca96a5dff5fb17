import { changeText } from '../shapes/history.mapper.js';
import type { FishActRow } from '../stock/rows/fish-act.entity.js';
import type { FishActModel, FishActPreviewModel } from './fish-act.model.js';
import type { TriedAct } from './fish-together.service.js';

export const toFishAct = (row: FishActRow): FishActModel => ({
  id: row.id,
  what: row.what,
  fishCount: row.fishCount,
  by: row.byName,
  at: row.at,
  takenBackAt: row.takenBackAt,
  takenBackBy: row.takenBackBy,
});

export const toFishActPreview = ({ done, inTheWay }: TriedAct): FishActPreviewModel => ({
  fish: done.map(({ id, tag, changes }) => ({
    id,
    tag,
    changes: Object.entries(changes).map(([field, { before, after }]) => ({
      field,
      before: changeText(before),
      after: changeText(after),
    })),
  })),
  inTheWay: [...inTheWay],
});
