import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { DifferencesService } from './differences.service.js';
import { ShareController } from './share.controller.js';
import { ShareResolver } from './share.resolver.js';
import { ShareService } from './share.service.js';

@Module({
  imports: [AccountsModule],
  controllers: [ShareController],
  providers: [ShareService, DifferencesService, ShareResolver],
  exports: [ShareService],
})
export class SharingModule {}
