import type { Locus } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { isUuid } from '../limits/is-uuid.js';
import { LociService } from '../loci/loci.service.js';
import { tooYoung } from '../loci/phenotype-reading.js';
import { standingPhenotypes } from '../stock/genotype.loader.js';
import { newestPhotos } from '../stock/photo.loader.js';
import type { PhenotypeRow } from '../stock/rows/phenotype.entity.js';
import type { FishLookModel, FishPictureModel } from './fish-picture.model.js';
import { toPhoto } from './photo.mapper.js';

/** The last look at each locus that counts; rows come last seen first. */
const looksNow = (rows: readonly PhenotypeRow[], loci: readonly Locus[]): FishLookModel[] => {
  const looks = new Map<string, FishLookModel>();
  for (const { locusId, phenotype, ageDays } of rows) {
    const locus = loci.find(({ id }) => id === locusId);
    if (locus === undefined || looks.has(locusId) || tooYoung(locus, ageDays) !== null) continue;
    const name = locus.phenotypes.find(({ id }) => id === phenotype)?.name ?? phenotype;
    looks.set(locusId, { locusId, phenotype, name });
  }
  return [...looks.values()];
};

/** What stands beside the tags of many fish: two statements for all of them, whatever their number. */
@Injectable()
export class FishPicturesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly loci: LociService,
  ) {}

  async of(given: readonly string[]): Promise<FishPictureModel[]> {
    const ids = [...new Set(given.filter(isUuid).map((id) => id.toLowerCase()))];
    if (ids.length === 0) return [];
    const { manager } = this.dataSource;
    const [photos, seen, loci] = await Promise.all([
      newestPhotos(manager, ids),
      standingPhenotypes(manager, ids),
      this.loci.all(),
    ]);
    const photoOf = new Map(photos.map((row) => [row.fishId, row]));
    const seenOf = new Map<string, PhenotypeRow[]>();
    for (const row of seen) seenOf.set(row.fishId, [...(seenOf.get(row.fishId) ?? []), row]);
    return ids.flatMap((fishId) => {
      const photo = photoOf.get(fishId);
      const looks = looksNow(seenOf.get(fishId) ?? [], loci);
      if (photo === undefined && looks.length === 0) return [];
      return [{ fishId, photo: photo === undefined ? null : toPhoto(photo), looks }];
    });
  }
}
