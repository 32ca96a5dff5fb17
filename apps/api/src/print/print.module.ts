import { Module } from '@nestjs/common';
import { KinshipModule } from '../kinship/kinship.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { HomeNetworkModule } from '../home-network/home-network.module.js';
import { LociModule } from '../loci/loci.module.js';
import { PrintAddressService } from './print-address.service.js';
import { PrintContentService } from './print-content.service.js';
import { PrintController } from './print.controller.js';
import { PrintResolver } from './print.resolver.js';

@Module({
  imports: [AccountsModule, HomeNetworkModule, LociModule, KinshipModule],
  controllers: [PrintController],
  providers: [PrintContentService, PrintAddressService, PrintResolver],
})
export class PrintModule {}
