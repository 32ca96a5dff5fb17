import { Args, Context, ID, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { CarrierReasonsModel, FishCarriersModel } from './carriers.model.js';
import { CarriersService } from './carriers.service.js';
import { RecordLinks } from './record-links.js';

@Resolver()
export class CarriersResolver {
  constructor(
    private readonly carriers: CarriersService,
    private readonly links: RecordLinks,
  ) {}

  @Query(() => FishCarriersModel, {
    description: 'What a fish is likely to carry, from all records of it and its kin.',
  })
  fishCarriers(
    @Args('fishId', { type: () => ID, description: 'The fish.' }) fishId: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<FishCarriersModel> {
    return this.carriers.ofFish(fishId, person);
  }

  @Query(() => CarrierReasonsModel, {
    description: 'Which records moved what is thought of a fish, each tested by removing it.',
    complexity: ({ childComplexity }) => 1 + childComplexity * 5,
  })
  async carrierReasons(
    @Args('fishId', { type: () => ID, description: 'The fish.' }) fishId: string,
    @Args('locusId', { type: () => String, description: 'The locus.' }) locusId: string,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<CarrierReasonsModel> {
    const found = await this.carriers.reasons(fishId, locusId, person);
    return {
      beforeRecords: found.before,
      now: found.now,
      tried: found.tried,
      nearCount: found.nearCount,
      assumed: [...found.assumed],
      setAside: found.setAside.map(({ recordId, why }) => ({ recordId, why })),
      waiting: found.answered.waiting === null ? null : toComputation(found.answered.waiting),
      reasons: await Promise.all(
        found.reasons.map(async ({ record, relation, weight, without }) => ({
          recordId: record.recordId,
          relation,
          text: record.text,
          weight,
          without,
          fish: await this.links.fish(record.spawnId === null ? record.fishIds[0] : null, context),
          spawn: await this.links.spawn(record.spawnId, context),
        })),
      ),
    };
  }
}
