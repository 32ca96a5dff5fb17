import {
  Args,
  Context,
  ID,
  Int,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { notFound } from '../errors/request-error.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { LineModel } from '../shapes/line.model.js';
import { toTrait } from '../shapes/score.mapper.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import { PurposeLoader } from '../stock/purpose.loader.js';
import { ScoreLoader } from '../stock/score.loader.js';
import { toPurposeVersion, unsaidPurpose } from './line-purpose.mapper.js';
import {
  LinePurposeVersionConnectionModel,
  LinePurposeVersionModel,
  SayWhatLineIsForInput,
  TraitAimModel,
} from './line-purpose.model.js';
import { LinePurposeService } from './line-purpose.service.js';

@Resolver(() => LineModel)
export class LinePurposeResolver {
  constructor(
    private readonly purposes: LinePurposeService,
    private readonly loader: PurposeLoader,
  ) {}

  @ResolveField(() => LinePurposeVersionModel, {
    description: 'What it is for now: the newest version.',
  })
  async purpose(
    @Parent() line: LineModel,
    @Context() context: object,
  ): Promise<LinePurposeVersionModel> {
    const row = await this.loader.newest.of(context).load(line.id);
    return row === null ? unsaidPurpose() : toPurposeVersion(row);
  }

  @Query(() => LinePurposeVersionConnectionModel, {
    description: 'What a line was said to be for, the newest version first, a page at a time.',
  })
  async linePurposes(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @First() first: number,
    @After() after: string | null,
  ): Promise<LinePurposeVersionConnectionModel> {
    return mapPage(await this.purposes.versions(lineId, first, after), toPurposeVersion);
  }

  @Query(() => LinePurposeVersionModel, {
    description:
      'One version of what a line was said to be for; version 0 is what is taken before.',
  })
  async linePurpose(
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
    @Args('version', { type: () => Int, description: 'Its number.' }) version: number,
  ): Promise<LinePurposeVersionModel> {
    const row = await this.purposes.version(lineId, version);
    return row === null ? unsaidPurpose() : toPurposeVersion(row);
  }

  @Mutation(() => LinePurposeVersionModel, {
    description:
      'Says what a line is for: adds a version. Refused with CONFLICT_REVISION when one was added since the form was opened.',
  })
  async sayWhatLineIsFor(
    @Args('input', { description: 'The line, and what it is for.' }) input: SayWhatLineIsForInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LinePurposeVersionModel> {
    return toPurposeVersion(await this.purposes.say(input, person));
  }
}

@Resolver(() => TraitAimModel)
export class TraitAimsResolver {
  constructor(private readonly scores: ScoreLoader) {}

  @ResolveField(() => TraitDefinitionModel, { description: 'The trait, as it is now.' })
  async trait(
    @Parent() aim: TraitAimModel,
    @Context() context: object,
  ): Promise<TraitDefinitionModel> {
    const row = await this.scores.traits.of(context).load(aim.traitId);
    if (row === null) throw notFound('trait', aim.traitId);
    return toTrait(row);
  }
}
