import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { BackupController } from './backup.controller.js';
import { BackupResolver } from './backup.resolver.js';
import { BackupsService } from './backups.service.js';
import { DailyBackup } from './daily-backup.js';

@Module({
  imports: [AccountsModule, PhotoFilesModule],
  controllers: [BackupController],
  providers: [BackupsService, DailyBackup, BackupResolver],
  exports: [BackupsService],
})
export class BackupModule {}
