import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { SurvivalResolver } from './survival.resolver.js';
import { SurvivalService } from './survival.service.js';

@Module({
  imports: [AccountsModule],
  providers: [SurvivalService, SurvivalResolver],
})
export class SurvivalModule {}
