import { Args, Context, Float, Int, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { currentActor } from '../access/acting.js';
import { PersonLoader } from '../stock/person.loader.js';
import { PersonModel } from '../accounts/session.model.js';
import { FishPlace, InbreedingBasis } from '../graphql/enums.js';
import { GenotypeLoader } from '../stock/genotype.loader.js';
import { toGenotype } from '../loci/genotype.mapper.js';
import { GenotypeModel } from '../loci/genotype.model.js';
import { ExplanationMapper } from '../kinship/explanation.js';
import { InbreedingExplanationModel } from '../kinship/kinship.model.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { LineLoader } from '../stock/line.loader.js';
import { toLine } from '../shapes/line.mapper.js';
import { LineModel } from '../shapes/line.model.js';
import { ScoreLoader, isStanding } from '../stock/score.loader.js';
import { toScore } from '../shapes/score.mapper.js';
import { ScoreModel } from '../shapes/score.model.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { toSpawn } from '../shapes/spawn.mapper.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { FishLoader } from '../stock/fish.loader.js';
import { toFish } from '../shapes/fish.mapper.js';
import { FishModel } from '../shapes/fish.model.js';

/** What hangs on a fish: every field is loaded in batches, once a request. */
@Resolver(() => FishModel)
export class FishFieldsResolver {
  constructor(
    private readonly fish: FishLoader,
    private readonly spawns: SpawnLoader,
    private readonly lines: LineLoader,
    private readonly people: PersonLoader,
    private readonly scoreLoader: ScoreLoader,
    private readonly genotypeLoader: GenotypeLoader,
    private readonly pedigrees: PedigreeService,
    private readonly explanations: ExplanationMapper,
  ) {}

  @ResolveField(() => PersonModel, { description: 'Whose record it is.' })
  person(@Parent() fish: FishModel, @Context() context: object): Promise<PersonModel> {
    return this.people.known(fish.personId, context);
  }

  @ResolveField(() => PersonModel, {
    nullable: true,
    description: 'With whom it swims, or swam when it died; null when that is not known.',
  })
  async swimsWith(
    @Parent() fish: FishModel,
    @Context() context: object,
  ): Promise<PersonModel | null> {
    return fish.swimsWithId === null ? null : this.people.byId.of(context).load(fish.swimsWithId);
  }

  @ResolveField(() => FishPlace, { description: 'Where it swims, or swam when it died.' })
  async place(@Parent() fish: FishModel, @Context() context: object): Promise<FishPlace> {
    const person = await this.swimsWith(fish, context);
    if (person === null) return FishPlace.UNKNOWN;
    const actor = currentActor();
    const keeper = actor.kind === 'account' && actor.role === 'keeper';
    const here = keeper ? person.id === actor.id : person.here;
    return here ? FishPlace.HERE : FishPlace.PARTNER;
  }

  @ResolveField(() => LineModel, { nullable: true, description: 'Its line.' })
  async line(@Parent() fish: FishModel, @Context() context: object): Promise<LineModel | null> {
    const row = fish.lineId === null ? null : await this.lines.byId.of(context).load(fish.lineId);
    return row === null ? null : toLine(row);
  }

  @ResolveField(() => SpawnModel, { nullable: true, description: 'The spawn it came from.' })
  async spawn(@Parent() fish: FishModel, @Context() context: object): Promise<SpawnModel | null> {
    const row =
      fish.spawnId === null ? null : await this.spawns.byId.of(context).load(fish.spawnId);
    return row === null ? null : toSpawn(row);
  }

  @ResolveField(() => FishModel, { nullable: true, description: "Its sire: its spawn's." })
  sire(@Parent() fish: FishModel, @Context() context: object): Promise<FishModel | null> {
    return this.parent(fish, 'sireId', context);
  }

  @ResolveField(() => FishModel, { nullable: true, description: "Its dam: its spawn's." })
  dam(@Parent() fish: FishModel, @Context() context: object): Promise<FishModel | null> {
    return this.parent(fish, 'damId', context);
  }

  @ResolveField(() => Float, {
    description:
      'Inbreeding coefficient F (Wright), 0 to 1; unknown ancestors are taken as unrelated.',
  })
  inbreedingCoefficient(@Parent() fish: FishModel): Promise<number> {
    return this.pedigrees.inbreedingOf(fish.id);
  }

  @ResolveField(() => InbreedingBasis, { description: 'How far its F can be trusted.' })
  inbreedingBasis(@Parent() fish: FishModel): Promise<InbreedingBasis> {
    return this.pedigrees.basisOf(fish.id);
  }

  @ResolveField(() => String, {
    nullable: true,
    description:
      'Why its F is not wholly known: whose parents nobody knows; null when it is known.',
  })
  async inbreedingNote(@Parent() fish: FishModel): Promise<string | null> {
    return this.explanations.whyUncertain([fish.id]);
  }

  @ResolveField(() => Float, {
    description: 'Complete generation equivalents: how much of its ancestry is on record.',
  })
  async completeGenerationEquivalents(@Parent() fish: FishModel): Promise<number> {
    const { state, index } = await this.pedigrees.index(fish.id);
    return state.completeGenerations[index] ?? 0;
  }

  @ResolveField(() => InbreedingExplanationModel, {
    description: 'Where its F comes from, path by path.',
  })
  inbreeding(
    @Parent() fish: FishModel,
    @Args('limit', {
      type: () => Int,
      defaultValue: 50,
      description: 'Most paths to list, largest first.',
    })
    limit: number,
  ): Promise<InbreedingExplanationModel> {
    return this.explanations.ofFish(fish.id, limit);
  }

  @ResolveField(() => [GenotypeModel], { description: 'What it is believed to carry.' })
  async genotypes(@Parent() fish: FishModel, @Context() context: object): Promise<GenotypeModel[]> {
    return (await this.genotypeLoader.genotypes.of(context).load(fish.id)).map(toGenotype);
  }

  @ResolveField(() => [ScoreModel], {
    description: 'All its scores, newest first, corrected ones marked.',
  })
  async scores(@Parent() fish: FishModel, @Context() context: object): Promise<ScoreModel[]> {
    return (await this.scoreLoader.byFish.of(context).load(fish.id)).map(toScore);
  }

  @ResolveField(() => [ScoreModel], { description: 'Its latest standing score of each trait.' })
  async latestScores(@Parent() fish: FishModel, @Context() context: object): Promise<ScoreModel[]> {
    const standing = (await this.scoreLoader.byFish.of(context).load(fish.id)).filter(isStanding);
    const seen = new Set<string>();
    return standing.filter((s) => !seen.has(s.traitId) && seen.add(s.traitId)).map(toScore);
  }

  @ResolveField(() => [SpawnModel], { description: 'Spawns it is a parent of, newest first.' })
  async spawnsAsParent(
    @Parent() fish: FishModel,
    @Context() context: object,
  ): Promise<SpawnModel[]> {
    return (await this.spawns.byParent.of(context).load(fish.id)).map(({ spawn }) =>
      toSpawn(spawn),
    );
  }

  @ResolveField(() => Int, { description: 'Recorded young.' })
  offspringCount(@Parent() fish: FishModel, @Context() context: object): Promise<number> {
    return this.fish.offspringCount.of(context).load(fish.id);
  }

  private async parent(
    fish: FishModel,
    role: 'sireId' | 'damId',
    context: object,
  ): Promise<FishModel | null> {
    if (fish.spawnId === null) return null;
    const id = (await this.spawns.byId.of(context).load(fish.spawnId))?.[role] ?? null;
    const row = id === null ? null : await this.fish.byId.of(context).load(id);
    return row === null ? null : toFish(row);
  }
}
