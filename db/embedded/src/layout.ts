import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  realpathSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type Account, canReach, serverAccount } from './account.js';
import { EmbeddedDatabaseError, fileError, systemCode } from './errors.js';

/** Where the parts of one embedded database lie. */
export interface Layout {
  /** The data folder as given, absolute. */
  readonly dataDir: string;
  /** Folder that holds the cluster: `dataDir/database`, or a folder under /var/lib for root. */
  readonly home: string;
  /** PostgreSQL's own data folder. */
  readonly clusterDir: string;
  readonly passwordFile: string;
  readonly lockDir: string;
  readonly attendanceDir: string;
  /** Present when the cluster is not inside the data folder; holds its path. */
  readonly locationFile: string;
  /** Account the server runs under when we are root. */
  readonly account: Account | null;
}

/** Root's place for data that the server's account could not reach. */
const SYSTEM_HOME = '/var/lib/linewright';

/**
 * Makes the data folder when it is missing and settles where the cluster is.
 *
 * Only root ever has it elsewhere: the server's account cannot enter, say, /root. The place then follows from the data
 * folder's path, so that the next start finds it again, and `database/cluster-location` names it.
 */
export function layOut(dataDir: string, onUnreachable: 'relocate' | 'fail'): Layout {
  const given = resolve(dataDir);
  try {
    mkdirSync(join(given, 'database'), { recursive: true, mode: 0o700 });
    const real = realpathSync(given);
    assertNotACluster(real);
    return settle(real, onUnreachable);
  } catch (error) {
    throw fileError(error, given);
  }
}

function settle(dataDir: string, onUnreachable: 'relocate' | 'fail'): Layout {
  const inside = join(dataDir, 'database');
  const locationFile = join(inside, 'cluster-location');
  const recorded = readLocation(locationFile);
  if (recorded !== undefined)
    return layout(dataDir, recorded, serverAccount(join(recorded, 'cluster')));
  const account = serverAccount(join(inside, 'cluster'));
  if (account === null || openFor(account, dataDir, inside))
    return layout(dataDir, inside, account);
  if (onUnreachable === 'fail') {
    throw new EmbeddedDatabaseError(
      'EMBEDDED_DATA_DIR_UNREACHABLE',
      `PostgreSQL refuses to run as root, and the account it runs under (${account.name}) cannot enter ${dataDir}. ` +
        'Set DATA_DIR to a folder that every account may enter, such as /var/lib/linewright, or start as an ordinary user.',
      { path: dataDir, account: account.name },
    );
  }
  return layout(dataDir, makeSystemHome(dataDir), account);
}

function layout(dataDir: string, home: string, account: Account | null): Layout {
  const inside = realpathSync(join(dataDir, 'database'));
  // Compared later with a server's working folder, which the system gives without links in it.
  const realHome = realpathSync(home);
  return {
    dataDir,
    home: realHome,
    clusterDir: join(realHome, 'cluster'),
    passwordFile: join(inside, 'password'),
    lockDir: join(inside, 'lock'),
    attendanceDir: join(inside, 'attendance'),
    locationFile: join(inside, 'cluster-location'),
    account,
  };
}

/** Lets `account` pass through the folders that are ours to open; false when one above them is closed. */
function openFor(account: Account, dataDir: string, inside: string): boolean {
  chmodSync(inside, 0o711);
  if (canReach(account, inside)) return true;
  // A folder that holds nothing but ours (as mktemp makes them, mode 700) may be opened for passing through.
  if (readdirSync(dataDir).some((entry) => entry !== 'database')) return false;
  if (!canReach(account, resolve(dataDir, '..'))) return false;
  chmodSync(dataDir, 0o711);
  return canReach(account, inside);
}

function makeSystemHome(dataDir: string): string {
  const hash = createHash('sha256').update(dataDir).digest('hex').slice(0, 12);
  const home = join(SYSTEM_HOME, `${basename(dataDir).replace(/[^\w-]/g, '')}-${hash}`);
  mkdirSync(home, { recursive: true, mode: 0o711 });
  return home;
}

/** Notes beside the password where the cluster is, once there is one. */
export function recordLocation(where: Layout): void {
  if (where.home === dirname(where.passwordFile) || existsSync(where.locationFile)) return;
  writeFileSync(where.locationFile, `${where.home}\n`);
}

function readLocation(file: string): string | undefined {
  let home: string;
  try {
    home = readFileSync(file, 'utf8').trim();
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return undefined;
    throw error;
  }
  if (existsSync(join(home, 'cluster'))) return home;
  throw new EmbeddedDatabaseError(
    'EMBEDDED_DATA_DAMAGED',
    `${file} says that the records are in ${home}, but they are not there. Put that folder back; ` +
      `or, to begin with an empty database, delete ${file}.`,
    { file, home },
  );
}

function assertNotACluster(dataDir: string): void {
  if (!existsSync(join(dataDir, 'PG_VERSION'))) return;
  throw new EmbeddedDatabaseError(
    'EMBEDDED_DATA_DIR_FOREIGN',
    `${dataDir} is itself the data folder of a PostgreSQL server. Set DATA_DIR to another folder, ` +
      'or run that server and set DATABASE_URL.',
    { path: dataDir },
  );
}
