import type { Binaries } from './binaries.js';
import { DATABASE_NAME } from './cluster.js';
import { EmbeddedDatabaseError } from './errors.js';
import type { Layout } from './layout.js';
import { runProgram } from './run-program.js';

/**
 * Sets the superuser's password on a stopped cluster, through PostgreSQL's single-user mode.
 * Needed when the stored password was lost, say by restoring the cluster's folder alone.
 */
export async function resetPassword(
  where: Layout,
  binaries: Binaries,
  password: string,
): Promise<void> {
  const statement = `ALTER ROLE ${DATABASE_NAME} PASSWORD '${password}'\n`;
  const args = ['--single', '-D', where.clusterDir, 'postgres'];
  const result = await runProgram(binaries.postgres, args, where.account, statement);
  // Single-user mode exits with 0 whatever its statements did.
  if (result.status === 0 && !/\b(ERROR|FATAL|PANIC):/.test(result.output)) return;
  throw new EmbeddedDatabaseError(
    'EMBEDDED_START_FAILED',
    `${where.passwordFile} is missing and a new password could not be set. PostgreSQL said: ${result.output.trim().slice(-500)}`,
    { path: where.clusterDir },
  );
}
