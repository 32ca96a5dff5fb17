import { Mutation, Query, Resolver } from '@nestjs/graphql';
import { ForOwner } from '../accounts/session.guard.js';
import { BackupStateModel, toBackupState } from './backup.model.js';
import { BackupsService } from './backups.service.js';

@Resolver()
@ForOwner()
export class BackupResolver {
  constructor(private readonly backups: BackupsService) {}

  @Query(() => BackupStateModel, {
    description: 'When the last good backup was made, where, and whether the latest failed.',
  })
  async backupState(): Promise<BackupStateModel> {
    return toBackupState(await this.backups.state());
  }

  @Mutation(() => BackupStateModel, {
    description:
      'Begins a backup of everything; ask backupState until it is no longer under way. Refused while one is being made (BACKUP_BUSY).',
  })
  async makeBackup(): Promise<BackupStateModel> {
    await this.backups.begin('asked');
    return toBackupState(await this.backups.state());
  }
}
