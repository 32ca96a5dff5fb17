import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { CarriersModule } from '../carriers/carriers.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { MeritModule } from '../merit/merit.module.js';
import { StockModule } from '../stock/stock.module.js';
import { ForecastsService } from './forecasts.service.js';
import { LineBeliefsService } from './line-beliefs.service.js';
import { LineOutcrossService } from './line-outcross.service.js';
import { PlanCourseService } from './plan-course.service.js';
import { LinePlanResolver } from './line-plan.resolver.js';
import { LinePlanService } from './line-plan.service.js';
import { RouteSearchService } from './route-search.service.js';
import { LineRoutesResolver } from './line-routes.resolver.js';

/** Where a line can go: routes to what it is for, the one that was adopted, and a forecast. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, JobsModule, MeritModule, CarriersModule],
  providers: [
    LineBeliefsService,
    RouteSearchService,
    ForecastsService,
    LineOutcrossService,
    LineRoutesResolver,
    LinePlanService,
    PlanCourseService,
    LinePlanResolver,
  ],
})
export class LineRoutesModule {}
