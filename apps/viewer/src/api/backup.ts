import { graphql, type ResultOf } from './graphql.js';

const backupStateParts = graphql(`
  fragment BackupStateParts on BackupState {
    folder
    sameDisk
    underWay
    demo
    failed {
      at
      message
    }
    madeCount
    backups {
      id
      kind
      at
      fileName
      folder
      bytes
      photosMissing
      there
    }
  }
`);

export const BACKUP_STATE = graphql(
  `
    query BackupState {
      backupState {
        ...BackupStateParts
      }
    }
  `,
  [backupStateParts],
);

export const MAKE_BACKUP = graphql(
  `
    mutation MakeBackup {
      makeBackup {
        ...BackupStateParts
      }
    }
  `,
  [backupStateParts],
);

export type BackupState = ResultOf<typeof BACKUP_STATE>['backupState'];
export type Backup = BackupState['backups'][number];
