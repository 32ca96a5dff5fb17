import {
  Args,
  Context,
  Float,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { KeeperLoader } from '../stock/keeper.loader.js';
import { Clock } from '../clock/clock.js';
import { CurrentKeeper } from '../accounts/session.guard.js';
import { KeeperModel } from '../accounts/session.model.js';
import { notFound } from '../errors/request-error.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import { PairingState } from '../graphql/enums.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { InbreedingBasis } from '../graphql/enums.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { toSpawn } from '../shapes/spawn.mapper.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { toPairing } from './pairing.mapper.js';
import { PairObstaclesLoader } from './pair-obstacles.loader.js';
import { toWarning } from './judging.mapper.js';
import { PairWarningModel, PairingModel } from './pairing.model.js';
import { PairingSpawnInput, PlanPairingInput } from './pairing.inputs.js';
import { PairingsService } from './pairings.service.js';

@Resolver(() => PairingModel)
export class PairingResolver {
  constructor(
    private readonly pairingsService: PairingsService,
    private readonly fishLoader: FishLoader,
    private readonly spawnLoader: SpawnLoader,
    private readonly keepers: KeeperLoader,
    private readonly pedigrees: PedigreeService,
    private readonly obstaclesLoader: PairObstaclesLoader,
    private readonly clock: Clock,
  ) {}

  @Query(() => [PairingModel], { description: 'Planned pairings, newest first.' })
  async pairings(
    @Args('states', {
      type: () => [PairingState],
      nullable: true,
      description: 'Only in these states.',
    })
    states: PairingState[] | null,
  ): Promise<PairingModel[]> {
    return (await this.pairingsService.list(states ?? null)).map(toPairing);
  }

  @Query(() => PairingModel, { description: 'One planned pairing.' })
  async pairing(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<PairingModel> {
    return toPairing(await this.pairingsService.one(id));
  }

  @Mutation(() => PairingModel, { description: 'Plans a pairing.' })
  async planPairing(
    @Args('input', { description: 'The pair.' }) input: PlanPairingInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<PairingModel> {
    return toPairing(await this.pairingsService.plan(input, keeper));
  }

  @Mutation(() => PairingModel, { description: 'Drops a planned pairing, with a reason.' })
  async dropPairing(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<PairingModel> {
    return toPairing(await this.pairingsService.drop(input, keeper));
  }

  @Mutation(() => SpawnModel, { description: 'Records the spawn of a planned pairing.' })
  async recordPairingSpawn(
    @Args('input', { description: 'The spawn.' }) input: PairingSpawnInput,
    @CurrentKeeper() keeper: SignedInKeeper,
  ): Promise<SpawnModel> {
    return toSpawn(await this.pairingsService.recordSpawn(input, keeper));
  }

  @ResolveField(() => FishModel, { description: 'The male.' })
  sire(@Parent() pairing: PairingModel, @Context() context: object): Promise<FishModel> {
    return this.fishOf(pairing.sireId, context);
  }

  @ResolveField(() => FishModel, { description: 'The female.' })
  dam(@Parent() pairing: PairingModel, @Context() context: object): Promise<FishModel> {
    return this.fishOf(pairing.damId, context);
  }

  @ResolveField(() => KeeperModel, { description: 'Who planned it.' })
  async keeper(@Parent() pairing: PairingModel, @Context() context: object): Promise<KeeperModel> {
    const row = await this.keepers.byId.of(context).load(pairing.keeperId);
    if (row === null) throw notFound('keeper', pairing.keeperId);
    return row;
  }

  @ResolveField(() => Float, { description: 'F of the brood.' })
  inbreedingCoefficient(@Parent() pairing: PairingModel): Promise<number> {
    return this.pedigrees.inbreedingOfBrood(pairing.sireId, pairing.damId);
  }

  @ResolveField(() => [PairWarningModel], {
    description:
      'What stands in the way of a pair that is still planned: a fish that died, was placed, swims with a partner, is too young or rests.',
  })
  async obstacles(
    @Parent() pairing: PairingModel,
    @Context() context: object,
  ): Promise<PairWarningModel[]> {
    if (pairing.state !== 'planned') return [];
    const { sireId, damId, plannedOn } = pairing;
    const now = this.clock.today();
    const day = plannedOn > now ? plannedOn : now;
    return (await this.obstaclesLoader.of.of(context).load({ sireId, damId, day })).map(toWarning);
  }

  @ResolveField(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis(@Parent() pairing: PairingModel): Promise<InbreedingBasis> {
    return this.pedigrees.basisOfBrood(pairing.sireId, pairing.damId);
  }

  @ResolveField(() => [SpawnModel], { description: 'Spawns recorded from it.' })
  async spawns(@Parent() pairing: PairingModel, @Context() context: object): Promise<SpawnModel[]> {
    return (await this.spawnLoader.byPairing.of(context).load(pairing.id)).map(toSpawn);
  }

  private async fishOf(id: string, context: object): Promise<FishModel> {
    const row = await this.fishLoader.byId.of(context).load(id);
    if (row === null) throw notFound('fish', id);
    return toFish(row);
  }
}
