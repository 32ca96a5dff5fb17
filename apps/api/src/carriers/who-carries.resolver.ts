import { Args, Context, Float, ID, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { fieldError } from '../errors/request-error.js';
import { pageOfList } from '../graphql/keyset.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RecordLinks } from './record-links.js';
import { LikelyCarrierConnectionModel, WhoCarriesModel } from './who-carries.model.js';
import { WhoCarriesService } from './who-carries.service.js';

@Resolver(() => WhoCarriesModel)
export class WhoCarriesResolver {
  constructor(
    private readonly service: WhoCarriesService,
    private readonly links: RecordLinks,
  ) {}

  @Query(() => WhoCarriesModel, {
    description:
      'Which fish in use carry an allele, known or likely, from all records of the whole stock.',
    complexity: ({ childComplexity }) => 5 + childComplexity,
  })
  whoCarries(
    @Args('locusId', { type: () => String, description: 'The locus.' }) locusId: string,
    @Args('alleleId', {
      type: () => String,
      nullable: true,
      description: 'The allele; the last one of the locus when absent.',
    })
    alleleId: string | null,
    @Args('lineId', {
      type: () => ID,
      nullable: true,
      description: 'Fish of this line alone; of all lines when absent.',
    })
    lineId: string | null,
    @Args('least', {
      type: () => Float,
      defaultValue: 0.05,
      description: 'Chances below this are counted and not listed, 0 to 1.',
    })
    least: number,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<WhoCarriesModel> {
    if (!(least >= 0 && least <= 1))
      throw fieldError({ field: 'least', message: `"${least}": give a chance from 0 to 1.` });
    const asked = { locusId, alleleId: alleleId ?? null, lineId: lineId ?? null, least };
    return this.service.of(asked, person.name);
  }

  @ResolveField(() => LikelyCarrierConnectionModel, {
    description: 'Fish that carry it, or may, the surest first.',
  })
  carriers(
    @Parent() found: WhoCarriesModel,
    @First() first: number,
    @After() after: string | null,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<LikelyCarrierConnectionModel> {
    return pageOfList(found.carriers, first, after, async (rows) => {
      const only = await this.service.only(found, rows, person.name);
      return Promise.all(
        rows.map(async ({ id, probability, twice }) => ({
          fish: (await this.links.fish(id, context))!,
          ...{ probability, twice, only: only.get(id) ?? null },
        })),
      );
    });
  }
}
