import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { GenotypesService } from './genotypes.service.js';
import { LociResolver } from './loci.resolver.js';
import { LociService } from './loci.service.js';
import { LocusSettingsService } from './locus-settings.service.js';

/** Loci of the catalogue and the person's own, what is taken for granted of them, and genotypes on record. */
@Module({
  imports: [AccountsModule, StockModule],
  providers: [LociService, LociResolver, LocusSettingsService, GenotypesService],
  exports: [LociService, LocusSettingsService, GenotypesService],
})
export class LociModule {}
