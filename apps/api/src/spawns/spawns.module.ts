import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { LociModule } from '../loci/loci.module.js';
import { StockModule } from '../stock/stock.module.js';
import { SibsService } from './sibs.service.js';
import { SpawnLogService } from './spawn-log.service.js';
import { SpawnsResolver } from './spawns.resolver.js';
import { SpawnsService } from './spawns.service.js';

/** Spawns and what is noted of them; care and pairings record on them as well. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule, LociModule],
  providers: [SpawnsService, SpawnLogService, SibsService, SpawnsResolver],
  exports: [SpawnsService, SpawnLogService],
})
export class SpawnsModule {}
