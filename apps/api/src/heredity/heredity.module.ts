import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { LociModule } from '../loci/loci.module.js';
import { SpawnsModule } from '../spawns/spawns.module.js';
import { CountsService } from './counts.service.js';
import { CrossesService } from './crosses.service.js';
import { InheritanceResolver } from './inheritance.resolver.js';
import { InheritanceService } from './inheritance.service.js';
import { PhenotypesService } from './phenotypes.service.js';
import { PhenotypesResolver } from './phenotypes.resolver.js';
import { HeredityResolver } from './heredity.resolver.js';

/** What is seen on fish, what they are believed to carry, and what a cross would give. */
@Module({
  imports: [AccountsModule, StockModule, LociModule, SpawnsModule],
  providers: [
    CountsService,
    CrossesService,
    PhenotypesService,
    PhenotypesResolver,
    HeredityResolver,
    InheritanceService,
    InheritanceResolver,
  ],
})
export class HeredityModule {}
