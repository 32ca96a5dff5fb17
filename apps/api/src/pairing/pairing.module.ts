import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { changeOf } from '../shapes/change.resolver.js';
import { pairingRecord } from '../stock/record-types.js';
import { StockModule } from '../stock/stock.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { LociModule } from '../loci/loci.module.js';
import { SpawnsModule } from '../spawns/spawns.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { MakersService } from './makers.service.js';
import { PairingsService } from './pairings.service.js';
import { PairingModel } from './pairing.model.js';
import { PairingResolver } from './pairing.resolver.js';
import { JudgingService } from './judging.service.js';
import { CarriersModule } from '../carriers/carriers.module.js';
import { MeritModule } from '../merit/merit.module.js';
import { ConditionsService } from './conditions.service.js';
import { ValuesAhead } from './values-ahead.js';
import { ErrorsTogetherService } from './errors-together.service.js';
import { WorthBasisService } from './worth-basis.service.js';
import { OutcrossesService } from './outcrosses.service.js';
import { JudgingResolver } from './judging.resolver.js';
import { PairListService } from './pair-list.service.js';
import { PairObstaclesLoader } from './pair-obstacles.loader.js';

/** Pairings: judged, ranked, planned and carried out. */
@Module({
  imports: [
    AccountsModule,
    StockModule,
    KinshipModule,
    LociModule,
    SpawnsModule,
    JobsModule,
    MeritModule,
    CarriersModule,
  ],
  providers: [
    PairingsService,
    MakersService,
    PairingResolver,
    changeOf(PairingModel, pairingRecord.target),
    WorthBasisService,
    ErrorsTogetherService,
    ValuesAhead,
    ConditionsService,
    JudgingService,
    OutcrossesService,
    JudgingResolver,
    PairListService,
    PairObstaclesLoader,
  ],
  exports: [PairingsService, JudgingService],
})
export class PairingModule {}
