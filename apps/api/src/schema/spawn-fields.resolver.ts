import { Context, Float, Int, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { PersonLoader } from '../stock/person.loader.js';
import { PersonModel } from '../accounts/session.model.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';
import { InbreedingBasis } from '../graphql/enums.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { LineLoader } from '../stock/line.loader.js';
import { toLine } from '../shapes/line.mapper.js';
import { LineModel } from '../shapes/line.model.js';
import { PairingLoader } from '../stock/pairing.loader.js';
import { toPairing } from '../pairing/pairing.mapper.js';
import { PairingModel } from '../pairing/pairing.model.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { toClassCount, toSpawnCount, toSpawnEvent, toSpawnLoss } from '../shapes/spawn.mapper.js';
import {
  ClassCountModel,
  SpawnCountModel,
  SpawnEventModel,
  SpawnLossModel,
  SpawnModel,
} from '../shapes/spawn.model.js';

@Resolver(() => SpawnModel)
export class SpawnFieldsResolver {
  constructor(
    private readonly loader: SpawnLoader,
    private readonly fishLoader: FishLoader,
    private readonly lines: LineLoader,
    private readonly people: PersonLoader,
    private readonly pairings: PairingLoader,
    private readonly pedigrees: PedigreeService,
  ) {}

  @ResolveField(() => PersonModel, { description: 'Whose record it is.' })
  person(@Parent() spawn: SpawnModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(spawn.personId, context);
  }

  @ResolveField(() => LineModel, { nullable: true, description: 'Line of the young.' })
  async line(@Parent() spawn: SpawnModel, @Context() context: object): Promise<LineModel | null> {
    const row = spawn.lineId === null ? null : await this.lines.byId.of(context).load(spawn.lineId);
    return row === null ? null : toLine(row);
  }

  @ResolveField(() => FishModel, { nullable: true, description: 'The sire, when known.' })
  sire(@Parent() spawn: SpawnModel, @Context() context: object): Promise<FishModel | null> {
    return this.parent(spawn.sireId, context);
  }

  @ResolveField(() => FishModel, { nullable: true, description: 'The dam, when known.' })
  dam(@Parent() spawn: SpawnModel, @Context() context: object): Promise<FishModel | null> {
    return this.parent(spawn.damId, context);
  }

  @ResolveField(() => PairingModel, {
    nullable: true,
    description: 'The planned pairing it comes from.',
  })
  async pairing(
    @Parent() spawn: SpawnModel,
    @Context() context: object,
  ): Promise<PairingModel | null> {
    const row =
      spawn.pairingId === null ? null : await this.pairings.byId.of(context).load(spawn.pairingId);
    return row === null ? null : toPairing(row);
  }

  @ResolveField(() => Float, { description: 'Inbreeding coefficient of its young.' })
  inbreedingCoefficient(@Parent() spawn: SpawnModel): Promise<number> {
    return this.pedigrees.inbreedingOfBrood(spawn.sireId, spawn.damId);
  }

  @ResolveField(() => InbreedingBasis, {
    description: 'How far the F of its young can be trusted.',
  })
  inbreedingBasis(@Parent() spawn: SpawnModel): Promise<InbreedingBasis> {
    return this.pedigrees.basisOfBrood(spawn.sireId, spawn.damId);
  }

  @ResolveField(() => [SpawnEventModel], { description: 'What happened, in order.' })
  async events(
    @Parent() spawn: SpawnModel,
    @Context() context: object,
  ): Promise<SpawnEventModel[]> {
    return (await this.loader.events.of(context).load(spawn.id)).map(toSpawnEvent);
  }

  @ResolveField(() => [SpawnCountModel], { description: 'Counts at stages, in order.' })
  async counts(
    @Parent() spawn: SpawnModel,
    @Context() context: object,
  ): Promise<SpawnCountModel[]> {
    return (await this.loader.counts.of(context).load(spawn.id)).map(toSpawnCount);
  }

  @ResolveField(() => [SpawnLossModel], { description: 'Losses, culls and fish placed, in order.' })
  async losses(@Parent() spawn: SpawnModel, @Context() context: object): Promise<SpawnLossModel[]> {
    return (await this.loader.losses.of(context).load(spawn.id)).map(toSpawnLoss);
  }

  @ResolveField(() => [ClassCountModel], { description: 'Young counted by phenotype class.' })
  async classCounts(
    @Parent() spawn: SpawnModel,
    @Context() context: object,
  ): Promise<ClassCountModel[]> {
    return (await this.loader.classCounts.of(context).load(spawn.id)).map((row) =>
      toClassCount(row, spawn.hatchDate),
    );
  }

  @ResolveField(() => [FishModel], { description: 'Its fish that have a record, by tag.' })
  async fish(@Parent() spawn: SpawnModel, @Context() context: object): Promise<FishModel[]> {
    return (await this.fishLoader.bySpawn.of(context).load(spawn.id)).map(toFish);
  }

  @ResolveField(() => Int, { description: 'How many of its fish have a record.' })
  async fishCount(@Parent() spawn: SpawnModel, @Context() context: object): Promise<number> {
    return (await this.fishLoader.bySpawn.of(context).load(spawn.id)).length;
  }

  private async parent(id: string | null, context: object): Promise<FishModel | null> {
    const row = id === null ? null : await this.fishLoader.byId.of(context).load(id);
    return row === null ? null : toFish(row);
  }
}
