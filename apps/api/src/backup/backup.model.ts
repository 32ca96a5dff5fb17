import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { BackupState, KeptBackup } from './backups.service.js';
import type { BackupKind } from '../stock/rows/backup-run.entity.js';

const backupKinds = { DAILY: 'daily', ASKED: 'asked', SHELL: 'shell' } as const;
registerEnumType(backupKinds, {
  name: 'BackupKind',
  description: 'What a backup was made for.',
  valuesMap: {
    DAILY: { description: 'Made by itself, once each day of use.' },
    ASKED: { description: 'Asked for on the screen.' },
    SHELL: { description: 'Made by npm run backup.' },
  },
});

@ObjectType('Backup', { description: 'A backup that was made, read again and found whole.' })
export class BackupModel {
  @Field(() => ID, { description: 'Its id: its file is at /export/backup/ID.' })
  id: string;

  @Field(() => backupKinds, { description: 'What it was made for.' })
  kind: BackupKind;

  @Field(() => Date, { description: 'The moment whose records it holds.' })
  at: Date;

  @Field(() => String, { description: 'Name of its file.' })
  fileName: string;

  @Field(() => String, { description: 'The folder it was put into.' })
  folder: string;

  @Field(() => Float, { description: 'Length of its file in bytes.' })
  bytes: number;

  @Field(() => Int, { description: 'Pictures whose file was missing or damaged.' })
  photosMissing: number;

  @Field(() => Boolean, { description: 'True when the file is still where it was put.' })
  there: boolean;
}

@ObjectType('BackupFailure', { description: 'A backup that did not come to its end.' })
export class BackupFailureModel {
  @Field(() => Date, { description: 'When it was begun.' })
  at: Date;

  @Field(() => String, { description: 'Why it failed, and what to do.' })
  message: string;
}

@ObjectType('BackupState', { description: 'How the records of this install are backed up.' })
export class BackupStateModel {
  @Field(() => String, { description: 'Where backups are put by themselves.' })
  folder: string;

  @Field(() => Boolean, {
    nullable: true,
    description:
      'True when that folder is on the disk of the records: a backup there is lost with the disk. Empty where it cannot be told.',
  })
  sameDisk: boolean | null;

  @Field(() => Boolean, { description: 'True while a backup is being made.' })
  underWay: boolean;

  @Field(() => [BackupModel], { description: 'The latest 12 backups, newest first.' })
  backups: BackupModel[];

  @Field(() => Int, { description: 'Backups that were made, listed or not.' })
  madeCount: number;

  @Field(() => BackupFailureModel, {
    nullable: true,
    description: 'The latest attempt, when it failed.',
  })
  failed: BackupFailureModel | null;

  @Field(() => Boolean, {
    description: 'True when the records are the demo, of which no backup is made by itself.',
  })
  demo: boolean;
}

const toBackup = ({ run, there }: KeptBackup): BackupModel => ({
  id: run.id,
  kind: run.kind,
  at: run.startedAt,
  fileName: run.fileName ?? '',
  folder: run.folder,
  bytes: Number(run.bytes ?? 0),
  photosMissing: run.photosMissing,
  there,
});

export const toBackupState = ({
  folder,
  sameDisk,
  underWay,
  kept,
  madeCount,
  failed,
  demo,
}: BackupState): BackupStateModel => ({
  folder,
  sameDisk,
  underWay,
  demo,
  backups: kept.map(toBackup),
  madeCount,
  failed:
    failed === null
      ? null
      : {
          at: failed.startedAt,
          message: failed.message ?? 'The program was ended before it was done.',
        },
});
