import { Button } from '@mantine/core';
import { BACKUP_STATE, MAKE_BACKUP, type Backup, type BackupState } from '../api/backup.js';
import { useReadAgain } from '../api/use-read-again.js';
import { useRead } from '../api/use-read.js';
import { useSave } from '../api/use-save.js';
import { DataTable } from '../components/data-table.js';
import { ProblemNotice } from '../components/notice.js';
import { Section } from '../components/section.js';
import { Shown } from '../components/states.js';
import { plural, showTime } from '../wording/figures.js';
import type { Column } from '../components/data-table.js';

const LOOK_AGAIN_MS = 1_000;

const madeFor = {
  DAILY: 'by itself',
  ASKED: 'asked for here',
  SHELL: 'from the shell',
} as const;

const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;

/** When the last good backup was made and where it is, one to make now, and the files to take along. */
export function BackupSection() {
  const read = useRead(BACKUP_STATE, {});
  const { save, saving, problem } = useSave(MAKE_BACKUP);
  const { reload } = read;
  const underWay = read.data?.backupState.underWay === true;
  useReadAgain(read, { going: underWay, afterMs: LOOK_AGAIN_MS });
  return (
    <Section title="Everything: a backup">
      <p className="lw-words">
        One file with all that is here: every fish, kept, culled, dead or withdrawn, with spawns,
        scores, logs, notes, photos, settings and the whole history. It is read again and compared
        after it was written. To bring it back: <code>npm run restore -- FILE</code> in the shell,
        into an empty install.
      </p>
      <Shown read={read} what="the backups">
        {({ backupState }) => <State state={backupState} />}
      </Shown>
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          loading={saving || underWay}
          onClick={async () => {
            if ((await save({})) !== null) reload();
          }}
        >
          Make a backup now
        </Button>
      </div>
    </Section>
  );
}

function State({ state }: { state: BackupState }) {
  const last = state.backups.find((backup) => backup.there);
  return (
    <>
      <BackupFailed state={state} />
      <p role="status">
        {state.underWay
          ? 'A backup is being made.'
          : last === undefined
            ? 'No backup is here yet.'
            : `Last good backup: ${showTime(last.at)}, ${megabytes(last.bytes)}, in ${last.folder}.`}
      </p>
      <p className="lw-words lw-quiet">
        {state.demo
          ? 'The demo is not backed up automatically. '
          : `A backup is made automatically on each day of use, in ${state.folder}; the last 7 days and 4 weeks are kept. `}
        {state.sameDisk === true &&
          'That folder is on the same disk as the records: it helps after a mistake, not when the disk dies or is stolen. Take a file along now and then, or set BACKUP_DIR to a folder on another disk.'}
      </p>
      {state.backups.length < state.madeCount && (
        <p className="lw-quiet">
          The latest {state.backups.length} of {state.madeCount} are listed; those that were not
          deleted since are in the folder.
        </p>
      )}
      {state.backups.length > 0 && (
        <DataTable
          caption="Latest backups"
          rows={state.backups}
          rowKey={(backup) => backup.id}
          columns={backupColumns()}
        />
      )}
    </>
  );
}

function backupColumns(): readonly Column<Backup>[] {
  return [
    { key: 'at', title: 'Made', cell: (backup) => showTime(backup.at) },
    {
      key: 'kind',
      title: 'How',
      wideOnly: true,
      cell: (backup) => madeFor[backup.kind],
    },
    {
      key: 'bytes',
      title: 'Size',
      number: true,
      cell: (backup) => megabytes(backup.bytes),
    },
    { key: 'file', title: 'File', cell: (backup) => <BackupFile backup={backup} /> },
  ];
}

function BackupFile({ backup }: { backup: Backup }) {
  if (!backup.there) return <>no longer in {backup.folder}</>;
  return (
    <>
      <a
        href={`/export/backup/${backup.id}`}
        download
        aria-label={`Download the backup of ${showTime(backup.at)}`}
      >
        Download
      </a>
      {backup.photosMissing > 0 &&
        ` (without ${plural(backup.photosMissing, 'photo')}: the file is missing or damaged)`}
    </>
  );
}

/** Said until a later backup comes to its end. */
export function BackupFailed({ state }: { state: BackupState }) {
  if (state.failed === null) return null;
  return (
    <div className="lw-notice lw-notice-problem" role="alert">
      <p>
        <strong>The backup of {showTime(state.failed.at)} failed.</strong> {state.failed.message}
      </p>
    </div>
  );
}
