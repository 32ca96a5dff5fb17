import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager, In } from 'typeorm';
import { rowsByOwner } from '../graphql/row-loader.js';
import { GenotypeRow } from './rows/genotype.entity.js';
import { PhenotypeRow } from './rows/phenotype.entity.js';
import { thatStands } from './standing.js';

/** Genotypes that stand, of each of these fish by locus. */
export const standingGenotypes = (
  manager: EntityManager,
  fishIds: readonly string[],
): Promise<GenotypeRow[]> =>
  manager.find(GenotypeRow, {
    where: { fishId: In([...fishIds]), ...thatStands },
    order: { locusId: 'ASC' },
  });

/** What was seen of these fish and stands, by locus, the last seen first. */
export const standingPhenotypes = (
  manager: EntityManager,
  fishIds: readonly string[],
): Promise<PhenotypeRow[]> =>
  manager.find(PhenotypeRow, {
    where: { fishId: In([...fishIds]), ...thatStands },
    order: { locusId: 'ASC', seenOn: 'DESC', createdAt: 'DESC' },
  });

/** The genotype that stands for a fish at a locus. */
export const genotypeAt = (
  manager: EntityManager,
  fishId: string,
  locusId: string,
): Promise<GenotypeRow | null> =>
  manager.findOneBy(GenotypeRow, { fishId, locusId, ...thatStands });

@Injectable()
export class GenotypeLoader {
  /** Genotypes of a fish that stand, by locus. */
  readonly genotypes;
  /** What was seen of a fish and stands, by locus, the last seen first. */
  readonly phenotypes;

  constructor(dataSource: DataSource) {
    this.genotypes = rowsByOwner(
      (ids) => standingGenotypes(dataSource.manager, ids),
      (row) => row.fishId,
    );
    this.phenotypes = rowsByOwner(
      (ids) => standingPhenotypes(dataSource.manager, ids),
      (row) => row.fishId,
    );
  }
}
