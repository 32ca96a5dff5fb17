import { Args, Context, Query, Resolver } from '@nestjs/graphql';
import { DataSource } from 'typeorm';
import { CurrentPerson } from '../accounts/session.guard.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { namedFish } from '../kinship/named-fish.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { ScoreLoader } from '../stock/score.loader.js';
import { toForecast } from './forecast.mapper.js';
import { LineForecastModel } from './forecast.model.js';
import { ForecastsService } from './forecasts.service.js';
import { LineOutcrossService } from './line-outcross.service.js';
import { LineOutcrossInput } from './outcross.inputs.js';
import { fishOfOutcross, toLineOutcross } from './outcross.mapper.js';
import { LineOutcrossModel } from './outcross.model.js';
import type { BelievedLine } from './line-beliefs.service.js';
import { RouteSearchService } from './route-search.service.js';
import { LineForecastInput, RouteSearchInput } from './line-routes.inputs.js';
import { fishOfRoutes, toRoutes } from './line-routes.mapper.js';
import { LineRoutesModel } from './line-routes.model.js';

@Resolver()
export class LineRoutesResolver {
  constructor(
    private readonly dataSource: DataSource,
    private readonly search: RouteSearchService,
    private readonly forecasts: ForecastsService,
    private readonly outcrossed: LineOutcrossService,
    private readonly pedigrees: PedigreeService,
    private readonly scores: ScoreLoader,
  ) {}

  @Query(() => LineRoutesModel, {
    description:
      'Routes of some generations to what a line is for. The search begins when it is first asked for; what it has found can be read while it goes on.',
  })
  async lineRoutes(
    @Args('input', { description: 'The line and the target.' }) input: RouteSearchInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<LineRoutesModel> {
    const standing = await this.search.of(input, person.name);
    return toRoutes(standing, await namedFish(this.dataSource, fishOfRoutes(standing)));
  }

  @Query(() => LineForecastModel, {
    description: 'Where a line goes under the plan, and as it was bred so far.',
  })
  async lineForecast(
    @Args('input', { description: 'The line and how far.' }) input: LineForecastInput,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<LineForecastModel> {
    const standing = await this.forecasts.of(input, person.name);
    return toForecast(standing, await this.traitNames(standing.believed, context));
  }

  @Query(() => LineOutcrossModel, {
    description:
      'What an outcross of a line to one partner gives: generation by generation at once; the chance to succeed and the line’s forecast without and with it as soon as they are simulated.',
  })
  async lineOutcross(
    @Args('input', { description: 'The line and the partner.' }) input: LineOutcrossInput,
    @CurrentPerson() person: SignedInPerson,
    @Context() context: object,
  ): Promise<LineOutcrossModel> {
    const standing = await this.outcrossed.of(input, person.name);
    const ids = fishOfOutcross(standing);
    return toLineOutcross(standing, {
      fish: await namedFish(this.dataSource, ids),
      traits: await this.traitNames(standing.believed, context),
      basis: await this.pedigrees.basisOfAll(ids),
    });
  }

  private async traitNames(
    believed: Pick<BelievedLine, 'traits'> | null,
    context: object,
  ): Promise<Map<string, string>> {
    const traits = this.scores.traits.of(context);
    const named = (believed?.traits ?? []).map(
      async ({ traitId }) => [traitId, (await traits.load(traitId))?.name ?? ''] as const,
    );
    return new Map(await Promise.all(named));
  }
}
