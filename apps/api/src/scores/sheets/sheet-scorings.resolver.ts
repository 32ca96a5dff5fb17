import { Args, Context, Mutation, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { CurrentPerson } from '../../accounts/session.guard.js';
import { notFound } from '../../errors/request-error.js';
import { FishLoader } from '../../stock/fish.loader.js';
import { toFish } from '../../shapes/fish.mapper.js';
import { FishModel } from '../../shapes/fish.model.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import { WithdrawInput } from '../../graphql/withdraw.input.js';
import { ScoreLoader } from '../../stock/score.loader.js';
import { toScore, toTrait } from '../../shapes/score.mapper.js';
import { ScoreModel, TraitDefinitionModel } from '../../shapes/score.model.js';
import type { ScoreSheetVersionRow } from '../../stock/rows/sheet.entity.js';
import { ScoreOnSheetInput } from './sheet.inputs.js';
import { SheetLoader } from '../../stock/sheet.loader.js';
import { seenFaults, toScoring, toSheet, toTotal } from './sheet.mapper.js';
import {
  ScoreSheetModel,
  SheetFaultModel,
  SheetScoringModel,
  SheetScoringPartModel,
  SheetTotalModel,
} from './sheet.model.js';
import { SheetScoringsService } from './sheet-scorings.service.js';
import { scoringWarnings } from './sheet-warnings.js';

@Resolver(() => SheetScoringModel)
export class SheetScoringsResolver {
  constructor(
    private readonly scorings: SheetScoringsService,
    private readonly loader: SheetLoader,
    private readonly scoreLoader: ScoreLoader,
    private readonly fishLoader: FishLoader,
  ) {}

  @Mutation(() => SheetScoringModel, {
    description: 'Saves a look at a fish on a sheet, values, faults and note, whole or not at all.',
  })
  async scoreOnSheet(
    @Args('input', { description: 'The look.' }) input: ScoreOnSheetInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SheetScoringModel> {
    return toScoring(await this.scorings.record(input, person));
  }

  @Mutation(() => SheetScoringModel, { description: 'Withdraws a look with all its values.' })
  async withdrawSheetScoring(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<SheetScoringModel> {
    return toScoring(await this.scorings.withdraw(input, person));
  }

  @ResolveField(() => FishModel, { description: 'The fish.' })
  async fish(@Parent() scoring: SheetScoringModel, @Context() context: object): Promise<FishModel> {
    const row = await this.fishLoader.byId.of(context).load(scoring.fishId);
    if (row === null) throw notFound('fish', scoring.fishId);
    return toFish(row);
  }

  @ResolveField(() => ScoreSheetModel, { description: 'The sheet.' })
  async sheet(
    @Parent() scoring: SheetScoringModel,
    @Context() context: object,
  ): Promise<ScoreSheetModel> {
    const row = await this.loader.sheets.of(context).load(scoring.sheetId);
    if (row === null) throw notFound('score sheet', scoring.sheetId);
    return toSheet(row);
  }

  @ResolveField(() => [ScoreModel], { description: 'Its values, corrected ones marked.' })
  async scores(
    @Parent() scoring: SheetScoringModel,
    @Context() context: object,
  ): Promise<ScoreModel[]> {
    return (await this.scoreLoader.byScoring.of(context).load(scoring.id)).map(toScore);
  }

  @ResolveField(() => [SheetFaultModel], { description: 'The faults seen.' })
  async faults(
    @Parent() scoring: SheetScoringModel,
    @Context() context: object,
  ): Promise<SheetFaultModel[]> {
    return seenFaults(scoring.faultIds, await this.version(scoring, context));
  }

  @ResolveField(() => SheetTotalModel, {
    description: 'Its total by the weights of the version it was scored on; corrections count.',
  })
  async total(
    @Parent() scoring: SheetScoringModel,
    @Context() context: object,
  ): Promise<SheetTotalModel> {
    const version = await this.version(scoring, context);
    const scores = await this.scoreLoader.byScoring.of(context).load(scoring.id);
    return toTotal(version, scores, seenFaults(scoring.faultIds, version));
  }

  @ResolveField(() => [String], {
    description: 'What to keep in mind, such as an age outside the window; never a refusal.',
  })
  async warnings(
    @Parent() scoring: SheetScoringModel,
    @Context() context: object,
  ): Promise<string[]> {
    const version = await this.version(scoring, context);
    const scores = await this.scoreLoader.byScoring.of(context).load(scoring.id);
    const ids = [...new Set(scores.map((score) => score.traitId))];
    const traits = await Promise.all(ids.map((id) => this.scoreLoader.traits.of(context).load(id)));
    return scoringWarnings(
      scoring.ageDays,
      version,
      traits.filter((trait) => trait !== null),
    );
  }

  private async version(
    scoring: SheetScoringModel,
    context: object,
  ): Promise<ScoreSheetVersionRow> {
    const rows = await this.loader.versions.of(context).load(scoring.sheetId);
    const row = rows.find(({ version }) => version === scoring.sheetVersion);
    if (row === undefined) throw notFound('version of the score sheet', scoring.sheetId);
    return row;
  }
}

@Resolver(() => SheetScoringPartModel)
export class SheetScoringPartsResolver {
  constructor(private readonly scores: ScoreLoader) {}

  @ResolveField(() => TraitDefinitionModel, { description: 'The trait, as it is now.' })
  async trait(
    @Parent() part: SheetScoringPartModel,
    @Context() context: object,
  ): Promise<TraitDefinitionModel> {
    const row = await this.scores.traits.of(context).load(part.traitId);
    if (row === null) throw notFound('trait', part.traitId);
    return toTrait(row);
  }
}

/** Looks on the fish's own page. */
@Resolver(() => FishModel)
export class FishScoringsResolver {
  constructor(private readonly loader: SheetLoader) {}

  @ResolveField(() => [SheetScoringModel], {
    description: 'Looks at it on score sheets, newest first, withdrawn ones marked.',
    complexity: ({ childComplexity }: { childComplexity: number }) => 1 + 5 * childComplexity,
  })
  async sheetScorings(
    @Parent() fish: FishModel,
    @Context() context: object,
  ): Promise<SheetScoringModel[]> {
    return (await this.loader.scoringsOfFish.of(context).load(fish.id)).map(toScoring);
  }
}
