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
import { CurrentPerson } from '../../accounts/session.guard.js';
import { notFound } from '../../errors/request-error.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import { WithdrawInput } from '../../graphql/withdraw.input.js';
import { ScoreLoader } from '../../stock/score.loader.js';
import { toTrait } from '../../shapes/score.mapper.js';
import { TraitDefinitionModel } from '../../shapes/score.model.js';
import {
  CreateScoreSheetInput,
  ReviseScoreSheetInput,
  StartScoreSheetInput,
} from './sheet.inputs.js';
import { SheetLoader } from '../../stock/sheet.loader.js';
import { toSheet, toSheetVersion } from './sheet.mapper.js';
import { ScoreSheetLineModel, ScoreSheetModel, ScoreSheetVersionModel } from './sheet.model.js';
import { SheetStartModel, toStart } from './sheet-start.model.js';
import { sheetStarts } from './sheet-starts.js';
import { SheetsService } from './sheets.service.js';

@Resolver(() => ScoreSheetModel)
export class SheetsResolver {
  constructor(
    private readonly sheets: SheetsService,
    private readonly loader: SheetLoader,
  ) {}

  @Query(() => [ScoreSheetModel], { description: 'Score sheets, by name.' })
  async scoreSheets(
    @Args('includeWithdrawn', {
      type: () => Boolean,
      defaultValue: false,
      description: 'Withdrawn ones too.',
    })
    includeWithdrawn: boolean,
  ): Promise<ScoreSheetModel[]> {
    return (await this.sheets.list(includeWithdrawn)).map(toSheet);
  }

  @Query(() => ScoreSheetModel, { description: 'One score sheet.' })
  async scoreSheet(
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
  ): Promise<ScoreSheetModel> {
    return toSheet(await this.sheets.find(id));
  }

  @Query(() => [SheetStartModel], {
    description: 'Beginnings for sheets in the trade’s words, offered and never imposed; by age.',
  })
  sheetStarts(): SheetStartModel[] {
    return sheetStarts.map(toStart);
  }

  @Mutation(() => ScoreSheetModel, { description: 'Makes a sheet.' })
  async createScoreSheet(
    @Args('input', { description: 'The sheet.' }) input: CreateScoreSheetInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreSheetModel> {
    return toSheet(await this.sheets.create(input, person));
  }

  @Mutation(() => ScoreSheetModel, {
    description: 'Makes a sheet from an offered beginning, with the traits it needs.',
  })
  async startScoreSheet(
    @Args('input', { description: 'Which beginning.' }) input: StartScoreSheetInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreSheetModel> {
    return toSheet(await this.sheets.start(input, person));
  }

  @Mutation(() => ScoreSheetModel, {
    description: 'Changes a sheet; a changed content makes a new version, older looks keep theirs.',
  })
  async reviseScoreSheet(
    @Args('input', { description: 'What changes.' }) input: ReviseScoreSheetInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreSheetModel> {
    return toSheet(await this.sheets.revise(input, person));
  }

  @Mutation(() => ScoreSheetModel, {
    description: 'Withdraws a sheet; looks given on it stay readable.',
  })
  async withdrawScoreSheet(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScoreSheetModel> {
    return toSheet(await this.sheets.withdraw(input, person));
  }

  @ResolveField(() => ScoreSheetVersionModel, { description: 'Its newest version.' })
  async current(
    @Parent() sheet: ScoreSheetModel,
    @Context() context: object,
  ): Promise<ScoreSheetVersionModel> {
    const rows = await this.loader.versions.of(context).load(sheet.id);
    const row = rows.find(({ version }) => version === sheet.version);
    if (row === undefined) throw notFound('version of the score sheet', sheet.id);
    return toSheetVersion(row);
  }

  @ResolveField(() => [ScoreSheetVersionModel], {
    description: 'All versions, oldest first.',
    complexity: ({ childComplexity }: { childComplexity: number }) => 1 + 5 * childComplexity,
  })
  async versions(
    @Parent() sheet: ScoreSheetModel,
    @Context() context: object,
  ): Promise<ScoreSheetVersionModel[]> {
    return (await this.loader.versions.of(context).load(sheet.id)).map(toSheetVersion);
  }

  @ResolveField(() => Int, { description: 'How many lines its newest version has.' })
  async lineCount(@Parent() sheet: ScoreSheetModel, @Context() context: object): Promise<number> {
    return (await this.current(sheet, context)).lines.length;
  }
}

@Resolver(() => ScoreSheetLineModel)
export class SheetLinesResolver {
  constructor(private readonly scores: ScoreLoader) {}

  @ResolveField(() => TraitDefinitionModel, { description: 'The trait, as it is now.' })
  async trait(
    @Parent() line: ScoreSheetLineModel,
    @Context() context: object,
  ): Promise<TraitDefinitionModel> {
    const row = await this.scores.traits.of(context).load(line.traitId);
    if (row === null) throw notFound('trait', line.traitId);
    return toTrait(row);
  }
}
