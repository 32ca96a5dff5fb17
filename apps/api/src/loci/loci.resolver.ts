import { catalogue, type LocusDefinition } from '@linewright/heredity';
import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { toLocus } from '../shapes/heredity.mapper.js';
import { LocusModel } from '../shapes/heredity.model.js';
import { LociService } from './loci.service.js';
import { LocusSettingsService } from './locus-settings.service.js';
import { toDefinition, toLocusSetting, toLocusVersion, toOwnLocus } from './own-locus.mapper.js';
import {
  DefineLocusInput,
  LocusSettingModel,
  LocusVersionModel,
  ReviseLocusInput,
  SetLocusSettingInput,
} from './own-locus.model.js';

@Resolver(() => LocusModel)
export class LociResolver {
  constructor(
    private readonly service: LociService,
    private readonly settings: LocusSettingsService,
  ) {}

  @Query(() => [LocusModel], { description: 'Every locus: the catalogue, then your own.' })
  async loci(): Promise<LocusModel[]> {
    return [...catalogue.map(toLocus), ...(await this.service.rows()).map(toOwnLocus)];
  }

  @Query(() => [LocusVersionModel], {
    description: 'Every version a locus of your own has had, newest first.',
  })
  async locusVersions(
    @Args('locusId', { type: () => String, description: 'Its short name.' }) locusId: string,
  ): Promise<LocusVersionModel[]> {
    return (await this.service.versions(locusId)).map(toLocusVersion);
  }

  @Query(() => [LocusSettingModel], {
    description: 'Allele frequencies and rates of misreading that were set, by line and locus.',
  })
  async locusSettings(): Promise<LocusSettingModel[]> {
    return (await this.settings.list()).map(toLocusSetting);
  }

  @Mutation(() => LocusModel, { description: 'Defines a locus of your own.' })
  async defineLocus(
    @Args('input', { description: 'The locus.' }) input: DefineLocusInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LocusModel> {
    const definition = { ...toDefinition(input), id: input.locusId.trim() } as LocusDefinition;
    return toOwnLocus(await this.service.define(definition, input.id ?? undefined, person));
  }

  @Mutation(() => LocusModel, {
    description: 'Makes the next version of a locus of your own; earlier ones stay readable.',
  })
  async reviseLocus(
    @Args('input', { description: 'What changes.' }) input: ReviseLocusInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LocusModel> {
    const { id, revision, ...changes } = input;
    return toOwnLocus(
      await this.service.revise({ id, revision }, toDefinition(changes as never), person),
    );
  }

  @Mutation(() => LocusModel, {
    description: 'Withdraws a locus of your own: records that use it then say so.',
  })
  async withdrawLocus(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LocusModel> {
    return toOwnLocus(await this.service.withdraw(input, person));
  }

  @Mutation(() => LocusModel, { description: 'Takes a withdrawal of your own locus back.' })
  async restoreLocus(
    @Args('id', { type: () => ID, description: 'UUID of its record.' }) id: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LocusModel> {
    return toOwnLocus(await this.service.restore(id, person));
  }

  @Mutation(() => LocusSettingModel, {
    description: 'Sets how common alleles are among founders, and how often a locus is misread.',
  })
  async setLocusSetting(
    @Args('input', { description: 'The setting.' }) input: SetLocusSettingInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LocusSettingModel> {
    return toLocusSetting(await this.settings.set(input, person));
  }

  @Mutation(() => LocusSettingModel, { description: 'Goes back to what is taken by default.' })
  async withdrawLocusSetting(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LocusSettingModel> {
    return toLocusSetting(await this.settings.withdraw(input, person));
  }
}
