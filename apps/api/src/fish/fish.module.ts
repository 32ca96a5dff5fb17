import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StockModule } from '../stock/stock.module.js';
import { KinshipModule } from '../kinship/kinship.module.js';
import { FishService } from './fish.service.js';
import { FishTogetherService } from './fish-together.service.js';
import { FishActsService } from './fish-acts.service.js';
import { FishActsResolver } from './fish-acts.resolver.js';
import { FishResolver } from './fish.resolver.js';
import { FoundersResolver } from './founders.resolver.js';
import { FoundersService } from './founders.service.js';
import { NextTagsService } from './next-tags.service.js';

/** Fish, one by one and several at once. */
@Module({
  imports: [AccountsModule, StockModule, KinshipModule],
  providers: [
    FishService,
    FishTogetherService,
    FishActsService,
    FishActsResolver,
    FishResolver,
    FoundersService,
    NextTagsService,
    FoundersResolver,
  ],
})
export class FishModule {}
