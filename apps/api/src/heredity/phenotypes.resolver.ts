import type { Locus } from '@linewright/heredity';
import { Args, Context, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { FishModel } from '../shapes/fish.model.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { toWithdrawal } from '../shapes/history.model.js';
import { LociService } from '../loci/loci.service.js';
import { GenotypeLoader } from '../stock/genotype.loader.js';
import type { PhenotypeRow } from '../stock/rows/phenotype.entity.js';
import { PhenotypeModel, RecordPhenotypeInput } from './phenotype.model.js';
import { tooYoung } from '../loci/phenotype-reading.js';
import { PhenotypesService } from './phenotypes.service.js';

const toPhenotype = (row: PhenotypeRow, loci: readonly Locus[]): PhenotypeModel => {
  const locus = loci.find((one) => one.id === row.locusId);
  const known = locus?.phenotypes.find((one) => one.id === row.phenotype);
  return {
    id: row.id,
    locusId: row.locusId,
    phenotype: row.phenotype,
    name: known?.name ?? row.phenotype,
    seenOn: row.seenOn,
    ageDays: row.ageDays,
    note: row.note,
    setAside: locus === undefined ? 'Its locus is not known here.' : tooYoung(locus, row.ageDays),
    revision: row.revision,
    withdrawn: toWithdrawal(row),
    fishId: row.fishId,
  };
};

@Resolver(() => FishModel)
export class PhenotypesResolver {
  constructor(
    private readonly phenotypes: PhenotypesService,
    private readonly loci: LociService,
    private readonly seen: GenotypeLoader,
  ) {}

  @ResolveField(() => [PhenotypeModel], { description: 'What the fish shows, locus by locus.' })
  async phenotypesSeen(
    @Parent() fish: FishModel,
    @Context() context: object,
  ): Promise<PhenotypeModel[]> {
    const rows = await this.seen.phenotypes.of(context).load(fish.id);
    if (rows.length === 0) return [];
    const loci = await this.loci.all();
    return rows.map((row) => toPhenotype(row, loci));
  }

  @Mutation(() => PhenotypeModel, { description: 'Records what was seen on a fish.' })
  async recordPhenotype(
    @Args('input', { description: 'What was seen.' }) input: RecordPhenotypeInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PhenotypeModel> {
    return toPhenotype(await this.phenotypes.record(input, person), await this.loci.all());
  }

  @Mutation(() => PhenotypeModel, { description: 'Withdraws a look at a fish.' })
  async withdrawPhenotype(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PhenotypeModel> {
    return toPhenotype(await this.phenotypes.withdraw(input, person), await this.loci.all());
  }
}
