import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { BackupModule } from '../backup/backup.module.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { SharingModule } from '../sharing/sharing.module.js';
import { OwnDataController } from './own-data.controller.js';
import { OwnDataResolver } from './own-data.resolver.js';
import { OwnDataService } from './own-data.service.js';

/** One's own data, taken out whole and erased. */
@Module({
  imports: [AccountsModule, BackupModule, PhotoFilesModule, SharingModule],
  controllers: [OwnDataController],
  providers: [OwnDataService, OwnDataResolver],
})
export class OwnDataModule {}
