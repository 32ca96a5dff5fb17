import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { DifferencesService } from './differences.service.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { ReceivedFiles } from './line-file/received-files.js';
import { ShareController } from './share.controller.js';
import { ShareResolver } from './share.resolver.js';
import { ShareService } from './share.service.js';

@Module({
  imports: [AccountsModule, PhotoFilesModule],
  controllers: [ShareController],
  providers: [ReceivedFiles, ShareService, DifferencesService, ShareResolver],
  exports: [ShareService],
})
export class SharingModule {}
