import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { HistoryModule } from '../history/history.module.js';
import { LociResolver } from './loci.resolver.js';
import { LociService } from './loci.service.js';
import { LocusSettingsService } from './locus-settings.service.js';
import { PhenotypesResolver } from '../heredity/phenotypes.resolver.js';
import { PhenotypesService } from '../heredity/phenotypes.service.js';

/** Loci of the catalogue and the keeper's own, what is taken for granted of them, and what was seen on fish. */
@Module({
  imports: [AccountsModule, HistoryModule],
  providers: [
    LociService,
    LociResolver,
    LocusSettingsService,
    PhenotypesService,
    PhenotypesResolver,
  ],
  exports: [LociService, LocusSettingsService],
})
export class LociModule {}
