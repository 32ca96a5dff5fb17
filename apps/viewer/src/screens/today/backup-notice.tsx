import { Link } from 'react-router';
import { BACKUP_STATE } from '../../api/backup.js';
import { useRead } from '../../api/use-read.js';
import { useSession } from '../../session/session-context.js';
import { BackupFailed } from '../../panels/backup-section.js';

/** A backup that failed is told where the person looks each day. */
export function BackupNotice() {
  // Backups are about the whole install, which its owner alone is told of.
  const owner = useSession().role === 'OWNER';
  const state = useRead(BACKUP_STATE, {}, { pause: !owner }).data?.backupState;
  if (state === undefined || state.failed === null) return null;
  return (
    <>
      <BackupFailed state={state} />
      <p>
        <Link to="/export-and-backup">See the backups</Link>
      </p>
    </>
  );
}
