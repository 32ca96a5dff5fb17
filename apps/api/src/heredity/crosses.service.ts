import {
  expectPhenotypes,
  findLocus,
  formatGenotype,
  type GenotypeInput,
  type GenotypeSet,
  type Locus,
  parsePartialGenotype,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { GenotypesService } from './genotypes.service.js';
import { toCrossExpectation } from './heredity.mapper.js';
import type { CrossExpectationModel, CrossInput, LocusGenotypeInput } from './heredity.model.js';
import { LociService } from './loci.service.js';
import { LocusSettingsService } from './locus-settings.service.js';
import { spellOut } from './partial-genotype.js';

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
  ): CrossExpectationModel {
    const own = loci.filter((one) => one.origin === 'keeper');
    const found = expectPhenotypes(sire, dam, { loci: own });
    return toCrossExpectation(found, broodSize, { sire, dam, loci: own }, [
      ...assumptions('sire', sire, loci, found.computed),
      ...assumptions('dam', dam, loci, found.computed),
    ]);
  }
}

const isSpelledOut = (input: GenotypeInput | undefined): input is WeightedGenotypeInput[] =>
  Array.isArray(input) && typeof input[0] === 'object';

/** "The sire at double tail: Dt/Dt 33 %, Dt/dt 67 %": the brood is then an average over pairs that may be. */
const assumptions = (
  role: string,
  set: GenotypeSet,
  loci: readonly Locus[],
  computed: readonly string[],
): string[] =>
  Object.entries(set).flatMap(([id, input]) => {
    const locus = loci.find((one) => one.id === id);
    if (locus === undefined || !computed.includes(id) || !isSpelledOut(input)) return [];
    const parts = input.map(({ genotype, probability }) => {
      const text = typeof genotype === 'string' ? genotype : formatGenotype(locus, genotype);
      return `${text} ${(Number(probability) * 100).toFixed(1)} %`;
    });
    return [
      `${locus.name}: the ${role} is known in part; taken as ${parts.join(', ')} by the allele frequencies of founders. One real pair is one of these, so a brood may differ from the average.`,
    ];
  });
