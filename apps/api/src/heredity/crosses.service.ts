import {
  findLocus,
  type GenotypeSet,
  type Locus,
  parsePartialGenotype,
} from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import { crossOf } from './cross-of.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import type {
  CrossExpectationModel,
  CrossInput,
  LocusGenotypeInput,
} from '../shapes/heredity.model.js';
import { LociService } from '../loci/loci.service.js';
import { LocusSettingsService } from '../loci/locus-settings.service.js';
import { spellOut } from '../loci/partial-genotype.js';
import { crossProgram } from './cross-program.js';

/** Each further locus may double or triple the work; more are worked out in a thread. */
const MOST_LOCI_AT_ONCE = 5;

/** Expected classes from genotypes, those known only in part spelled out by allele frequencies. */
@Injectable()
export class CrossesService {
  constructor(
    private readonly genotypes: GenotypesService,
    private readonly loci: LociService,
    private readonly settings: LocusSettingsService,
  ) {}

  /** @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_WITHDRAWN`, and of genotypes that cannot be read. */
  async byGenotype(input: CrossInput): Promise<CrossExpectationModel> {
    const [loci, settings] = await Promise.all([this.loci.all(), this.settings.list()]);
    const read = (inputs: LocusGenotypeInput[]): GenotypeSet =>
      Object.fromEntries(
        inputs.map(({ locusId, genotype }) => {
          const locus = findLocus(locusId, loci);
          parsePartialGenotype(locus, genotype);
          const general = settings.find((one) => one.locusId === locus.id && one.lineId === null);
          return [locusId, spellOut(locus, genotype, general?.frequencies ?? null)];
        }),
      );
    return this.expect(read(input.sire), read(input.dam), loci, input.broodSize ?? null);
  }

  async ofParents(sireId: string | null, damId: string | null): Promise<CrossExpectationModel> {
    const [loci, sets] = await Promise.all([
      this.loci.all(),
      this.genotypes.setsOf([sireId, damId].filter((id) => id !== null)),
    ]);
    return this.expect(sets.get(sireId ?? '') ?? {}, sets.get(damId ?? '') ?? {}, loci, null);
  }

  private expect(
    sire: GenotypeSet,
    dam: GenotypeSet,
    loci: readonly Locus[],
    broodSize: number | null,
  ): Promise<CrossExpectationModel> {
    const named = new Set([sire, dam].flatMap(Object.keys));
    return named.size > MOST_LOCI_AT_ONCE
      ? besideTheLoop(crossProgram, sire, dam, loci, broodSize)
      : Promise.resolve(crossOf(sire, dam, loci, broodSize));
  }
}
