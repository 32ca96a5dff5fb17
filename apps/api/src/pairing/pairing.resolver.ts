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
import { PersonLoader } from '../stock/person.loader.js';
import { Clock } from '../clock/clock.js';
import { CurrentAccount, CurrentPerson } from '../accounts/session.guard.js';
import { PersonModel } from '../accounts/session.model.js';
import { notFound } from '../errors/request-error.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import { PairingState } from '../graphql/enums.js';
import type { SignedInPerson } from '../graphql/request-context.js';
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
import { AssignPairingInput, PairingSpawnInput, PlanPairingInput } from './pairing.inputs.js';
import { MakersService } from './makers.service.js';
import { PairingsService } from './pairings.service.js';

@Resolver(() => PairingModel)
export class PairingResolver {
  constructor(
    private readonly pairingsService: PairingsService,
    private readonly makers: MakersService,
    private readonly fishLoader: FishLoader,
    private readonly spawnLoader: SpawnLoader,
    private readonly people: PersonLoader,
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
    @Args('mine', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Only those that you make.',
    })
    mine: boolean,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<PairingModel[]> {
    const rows = await this.pairingsService.list(states ?? null, mine ? account.id : null);
    return rows.map(toPairing);
  }

  @Query(() => [PersonModel], {
    description: 'Who may make pairs of a line, of whom you know.',
  })
  async pairMakers(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @Context() context: object,
  ): Promise<PersonModel[]> {
    const makers = await this.makers.ofLine(lineId);
    const people = await this.people.byId.of(context).loadMany(makers.map(({ id }) => id));
    return people.filter((one) => one !== null && !(one instanceof Error)) as PersonModel[];
  }

  @Mutation(() => PairingModel, { description: 'Says who makes a planned pair.' })
  async assignPairing(
    @Args('input', { description: 'The pair, and who.' }) input: AssignPairingInput,
    @CurrentAccount() account: SignedInPerson,
  ): Promise<PairingModel> {
    return toPairing(await this.makers.assign(input, account));
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
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PairingModel> {
    return toPairing(await this.pairingsService.plan(input, person));
  }

  @Mutation(() => PairingModel, { description: 'Drops a planned pairing, with a reason.' })
  async dropPairing(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<PairingModel> {
    return toPairing(await this.pairingsService.drop(input, person));
  }

  @Mutation(() => SpawnModel, { description: 'Records the spawn of a planned pairing.' })
  async recordPairingSpawn(
    @Args('input', { description: 'The spawn.' }) input: PairingSpawnInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SpawnModel> {
    return toSpawn(await this.pairingsService.recordSpawn(input, person));
  }

  @ResolveField(() => FishModel, { description: 'The male.' })
  sire(@Parent() pairing: PairingModel, @Context() context: object): Promise<FishModel> {
    return this.fishOf(pairing.sireId, context);
  }

  @ResolveField(() => FishModel, { description: 'The female.' })
  dam(@Parent() pairing: PairingModel, @Context() context: object): Promise<FishModel> {
    return this.fishOf(pairing.damId, context);
  }

  @ResolveField(() => PersonModel, { description: 'Who planned it.' })
  person(@Parent() pairing: PairingModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(pairing.personId, context);
  }

  @ResolveField(() => PersonModel, {
    nullable: true,
    description: 'Who makes it; null while nobody is named.',
  })
  async maker(
    @Parent() pairing: PairingModel,
    @Context() context: object,
  ): Promise<PersonModel | null> {
    return pairing.makerId === null ? null : this.people.byId.of(context).load(pairing.makerId);
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
