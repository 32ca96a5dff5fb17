/** Why the embedded database could not be started, stopped or used. */
export type EmbeddedDatabaseErrorCode =
  /** No PostgreSQL binaries for this platform are installed. */
  | 'EMBEDDED_PLATFORM_UNSUPPORTED'
  /** The binaries are there but do not run. */
  | 'EMBEDDED_BINARIES_UNUSABLE'
  /** Started by root, and no unprivileged account to run the server under. */
  | 'EMBEDDED_NO_ACCOUNT'
  | 'EMBEDDED_DATA_DIR_NOT_WRITABLE'
  /** Started by root, and the unprivileged account cannot reach the data folder. */
  | 'EMBEDDED_DATA_DIR_UNREACHABLE'
  /** The folder is a PostgreSQL data folder that this launcher did not make. */
  | 'EMBEDDED_DATA_DIR_FOREIGN'
  /** The data was written by another major version of PostgreSQL. */
  | 'EMBEDDED_DATA_VERSION'
  /** The data folder is incomplete, missing where it should be, or refused by the server. */
  | 'EMBEDDED_DATA_DAMAGED'
  | 'EMBEDDED_DISK_FULL'
  | 'EMBEDDED_PORT_UNAVAILABLE'
  /** A server holds the data folder but does not answer. */
  | 'EMBEDDED_SERVER_UNRESPONSIVE'
  /** The server holding the data folder refuses the stored password. */
  | 'EMBEDDED_PASSWORD_REFUSED'
  /** Another process kept the start-up lock for too long. */
  | 'EMBEDDED_LOCK_TIMEOUT'
  | 'EMBEDDED_START_FAILED'
  | 'EMBEDDED_STOP_FAILED';

/**
 * The only error this package throws on purpose.
 *
 * `message` names the value and the remedy and is meant to be printed as it stands; `details` carries paths, versions
 * and the server's own words for a log.
 */
export class EmbeddedDatabaseError extends Error {
  override readonly name = 'EmbeddedDatabaseError';

  constructor(
    readonly code: EmbeddedDatabaseErrorCode,
    message: string,
    readonly details: Readonly<Record<string, string | number>> = {},
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

/** The system's error code (`ENOENT`) of anything thrown, or `undefined`. */
export function systemCode(error: unknown): string | undefined {
  if (typeof error !== 'object' || error === null || !('code' in error)) return undefined;
  return typeof error.code === 'string' ? error.code : undefined;
}

/** Turns a file system error met on `path` into a coded one; other errors come back unchanged. */
export function fileError(error: unknown, path: string): unknown {
  if (error instanceof EmbeddedDatabaseError) return error;
  switch (systemCode(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return diskFull(path, error);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
    case 'ENOTDIR':
    case 'EEXIST':
      return new EmbeddedDatabaseError(
        'EMBEDDED_DATA_DIR_NOT_WRITABLE',
        `The data folder ${path} cannot be written (${String(systemCode(error))}). ` +
          'Give this user write permission there, or set DATA_DIR to a folder that this user owns.',
        { path },
        { cause: error },
      );
    default:
      return error;
  }
}

export function diskFull(path: string, cause?: unknown): EmbeddedDatabaseError {
  return new EmbeddedDatabaseError(
    'EMBEDDED_DISK_FULL',
    `The disk that holds ${path} is full. Free some space there (the records already stored are kept), ` +
      'or set DATA_DIR to a folder on a larger disk.',
    { path },
    { cause },
  );
}
