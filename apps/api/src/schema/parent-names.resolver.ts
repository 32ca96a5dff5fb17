import { NO_PARENT } from '@linewright/pedigree';
import type { Type } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { FishNames } from '../kinship/fish-names.js';
import { hiddenParent } from '../kinship/hidden-parents.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { FishModel } from '../shapes/fish.model.js';
import { ParentNameModel } from '../shapes/parent-name.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { FishLoader } from '../stock/fish.loader.js';

type Role = 'sire' | 'dam';

const described = (role: Role): string =>
  `The ${role} by name, also where its record is not shared with whoever asks; null where nobody knows it.`;

/** Of a parent whose record is shown, by its row; of others, what may be told: their place in the pedigree is no secret, since F rests on it. */
abstract class ParentNames {
  constructor(
    private readonly fish: FishLoader,
    private readonly names: FishNames,
  ) {}

  protected async named(id: string | null, context: object): Promise<ParentNameModel | null> {
    if (id === null) return null;
    const row = await this.fish.byId.of(context).load(id);
    if (row !== null) return { id, tag: row.tag, sex: row.sex, recordShown: true };
    const name = (await this.names.of([id])).get(id);
    return name === undefined
      ? null
      : { id: null, tag: name.tag, sex: name.sex, recordShown: false };
  }
}

@Resolver(() => SpawnModel)
export class SpawnParentNamesResolver extends ParentNames {
  constructor(fish: FishLoader, names: FishNames) {
    super(fish, names);
  }

  @ResolveField(() => ParentNameModel, { nullable: true, description: described('sire') })
  namedSire(@Parent() { sireId }: SpawnModel, @Context() context: object) {
    return this.named(sireId, context);
  }

  @ResolveField(() => ParentNameModel, { nullable: true, description: described('dam') })
  namedDam(@Parent() { damId }: SpawnModel, @Context() context: object) {
    return this.named(damId, context);
  }
}

@Resolver(() => FishModel)
export class FishParentNamesResolver extends ParentNames {
  constructor(
    fish: FishLoader,
    names: FishNames,
    private readonly pedigrees: PedigreeService,
  ) {
    super(fish, names);
  }

  @ResolveField(() => ParentNameModel, { nullable: true, description: described('sire') })
  async namedSire(@Parent() fish: FishModel, @Context() context: object) {
    return this.named(await this.parentOf(fish, 'sire'), context);
  }

  @ResolveField(() => ParentNameModel, { nullable: true, description: described('dam') })
  async namedDam(@Parent() fish: FishModel, @Context() context: object) {
    return this.named(await this.parentOf(fish, 'dam'), context);
  }

  /** From the whole pedigree in memory: the spawn itself may not be shared. */
  private async parentOf({ id, spawnId }: FishModel, role: Role): Promise<string | null> {
    if (spawnId === null) return null;
    const { pedigree } = await this.pedigrees.state();
    if (!pedigree.has(id)) return null;
    const parent = pedigree[role][pedigree.indexOf(id)] ?? NO_PARENT;
    const named = parent === NO_PARENT ? null : (pedigree.ids[parent] ?? null);
    return named === null || hiddenParent(named) !== null ? null : named;
  }
}

/** Parents by name, of fish and of spawns. */
export const parentNamesResolvers: readonly Type<unknown>[] = [
  FishParentNamesResolver,
  SpawnParentNamesResolver,
];
