import { readFileSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { EmbeddedDatabaseError } from './errors.js';

/** The account the server runs under. */
export interface Account {
  readonly name: string;
  readonly uid: number;
  readonly gid: number;
}

const PREFERRED = ['linewright', 'postgres', 'nobody', 'daemon'];

/**
 * The account to run PostgreSQL under when this process is root, or `null` when it is not (the server then runs as
 * whoever we are). PostgreSQL refuses to run as root. An existing cluster keeps its owner; a new one goes to the first
 * of linewright, postgres, nobody, daemon found in /etc/passwd (initdb needs an account that is listed there).
 */
export function serverAccount(clusterDir: string): Account | null {
  if (process.getuid?.() !== 0) return null;
  const accounts = listedAccounts();
  const owner = ownerOf(clusterDir);
  if (owner !== undefined && owner.uid !== 0) {
    return accounts.find((account) => account.uid === owner.uid) ?? { name: '', ...owner };
  }
  for (const name of PREFERRED) {
    const account = accounts.find((candidate) => candidate.name === name && candidate.uid !== 0);
    if (account) return account;
  }
  throw new EmbeddedDatabaseError(
    'EMBEDDED_NO_ACCOUNT',
    'PostgreSQL refuses to run as root, and /etc/passwd lists none of ' +
      `${PREFERRED.join(', ')} to run it under. Start as an ordinary user, or set DATABASE_URL to a server of your own.`,
  );
}

/** Whether `account` may pass through every folder down to and including `path` (mode bits only). */
export function canReach(account: Account, path: string): boolean {
  for (let folder = path; ; folder = dirname(folder)) {
    if (!mayEnter(account, folder)) return false;
    if (dirname(folder) === folder) return true;
  }
}

function mayEnter(account: Account, folder: string): boolean {
  try {
    const { mode, uid, gid } = statSync(folder);
    if (uid === account.uid) return (mode & 0o100) !== 0;
    if (gid === account.gid) return (mode & 0o010) !== 0;
    return (mode & 0o001) !== 0;
  } catch {
    // Not there yet: whoever makes it decides its mode.
    return true;
  }
}

function ownerOf(path: string): { uid: number; gid: number } | undefined {
  try {
    const { uid, gid } = statSync(path);
    return { uid, gid };
  } catch {
    return undefined;
  }
}

function listedAccounts(): Account[] {
  let text: string;
  try {
    text = readFileSync('/etc/passwd', 'utf8');
  } catch {
    return [];
  }
  return text.split('\n').flatMap((line) => {
    const [name, , uid, gid] = line.split(':');
    return name && uid && gid ? [{ name, uid: Number(uid), gid: Number(gid) }] : [];
  });
}
