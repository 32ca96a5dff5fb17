/** Codes of the system and of PostgreSQL (appendix A of its manual: classes 08 and 57) for a server that is not there. */
const AWAY = /^(ECONNREFUSED|ECONNRESET|EPIPE|57P0[123]|08\w{3})$/;
/** The driver's own words, which carry no code. */
const WORDS =
  /Connection terminated|Client has encountered a connection error|Client was closed|timeout exceeded when trying to connect|Connection ended/;

/** True when a question could not be put to the database because its server is gone or starting. */
export const isDatabaseAway = (error: unknown): boolean => {
  for (let at: unknown = error, depth = 0; at instanceof Error && depth < 4; depth++) {
    const { code, driverError, cause, errors } = at as Error & {
      code?: unknown;
      driverError?: unknown;
      errors?: unknown;
    };
    if (typeof code === 'string' && AWAY.test(code)) return true;
    // What TypeORM says of a transaction whose connection broke.
    if (/^QueryRunner(Provider)?AlreadyReleasedError$/.test(at.name) || WORDS.test(at.message))
      return true;
    at = driverError ?? cause ?? (Array.isArray(errors) ? errors[0] : undefined);
  }
  return false;
};
