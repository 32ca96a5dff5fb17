import { Injectable } from '@nestjs/common';
import { DataSource, In } from 'typeorm';
import { rowsById, rowsByOwner } from '../graphql/row-loader.js';
import { ScoreRow, TraitDefinitionRow } from './rows/score.entity.js';

export type KnownScore = ScoreRow & { corrected: boolean };

/** Newest first; one that a standing later score corrects is marked. */
export const scoresOfFish = async (
  dataSource: DataSource,
  fishIds: string[],
): Promise<KnownScore[]> => {
  const rows = await dataSource.getRepository(ScoreRow).find({
    where: { fishId: In(fishIds) },
    order: { scoredOn: 'DESC', createdAt: 'DESC', id: 'ASC' },
  });
  return markCorrected(rows);
};

/** A correction stands in the same look as what it corrects, so the rows given tell which are corrected. */
const markCorrected = (rows: ScoreRow[]): KnownScore[] => {
  const corrected = new Set(
    rows.filter((row) => row.withdrawnAt === null).map((row) => row.correctsId),
  );
  return rows.map((row) => Object.assign(row, { corrected: corrected.has(row.id) }));
};

/** The values given in looks at whole fish on sheets. */
export const scoresOfScorings = async (
  dataSource: DataSource,
  scoringIds: string[],
): Promise<KnownScore[]> =>
  markCorrected(
    await dataSource.getRepository(ScoreRow).find({
      where: { scoringId: In(scoringIds) },
      order: { createdAt: 'ASC', id: 'ASC' },
    }),
  );

/** Scores that were measured on pictures, the newest first. */
const scoresOfPhotos = async (dataSource: DataSource, photoIds: string[]): Promise<KnownScore[]> =>
  markCorrected(
    await dataSource
      .getRepository(ScoreRow)
      .createQueryBuilder('s')
      .where(`s.marking ->> 'photoId' = ANY (:photoIds)`, { photoIds })
      .orderBy('s.created_at', 'DESC')
      .addOrderBy('s.id')
      .getMany(),
  );

export const isStanding = (score: KnownScore): boolean =>
  !score.corrected && score.withdrawnAt === null;

@Injectable()
export class ScoreLoader {
  readonly traits;
  readonly byFish;
  readonly byScoring;
  readonly byPhoto;

  constructor(dataSource: DataSource) {
    this.traits = rowsById(dataSource, TraitDefinitionRow);
    this.byFish = rowsByOwner(
      (ids) => scoresOfFish(dataSource, ids),
      (row) => row.fishId,
    );
    this.byScoring = rowsByOwner(
      (ids) => scoresOfScorings(dataSource, ids),
      (row) => row.scoringId,
    );
    this.byPhoto = rowsByOwner(
      (ids) => scoresOfPhotos(dataSource, ids),
      (row) => row.marking?.photoId ?? null,
    );
  }
}
