import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { ExchangeController } from './exchange.controller.js';
import { ExchangeResolver } from './exchange.resolver.js';
import { ExchangeService } from './exchange.service.js';

@Module({
  imports: [AccountsModule],
  controllers: [ExchangeController],
  providers: [ExchangeService, ExchangeResolver],
  exports: [ExchangeService],
})
export class ExchangeModule {}
