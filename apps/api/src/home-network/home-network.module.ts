import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { HomeNetworkResolver } from './home-network.resolver.js';
import { HomeNetworkService } from './home-network.service.js';

@Module({
  imports: [AccountsModule],
  providers: [HomeNetworkService, HomeNetworkResolver],
  exports: [HomeNetworkService],
})
export class HomeNetworkModule {}
