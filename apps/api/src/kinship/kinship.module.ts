import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { ExplanationMapper } from './explanation.js';
import { FishNames } from './fish-names.js';
import { InbreedingSourcesResolver } from './inbreeding-sources.resolver.js';
import { InbreedingSourcesService } from './inbreeding-sources.service.js';
import { KinshipResolver } from './kinship.resolver.js';
import { PedigreeService } from './pedigree.service.js';
import { SliceService } from './slice.service.js';

/** The whole pedigree in memory, and what follows from it. */
@Module({
  imports: [StockModule],
  providers: [
    PedigreeService,
    SliceService,
    ExplanationMapper,
    FishNames,
    KinshipResolver,
    InbreedingSourcesService,
    InbreedingSourcesResolver,
  ],
  exports: [PedigreeService, SliceService, ExplanationMapper, FishNames],
})
export class KinshipModule {}
