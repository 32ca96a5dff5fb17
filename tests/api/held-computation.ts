import pg from 'pg';

export interface HeldComputations {
  /** Whether one has come to the point at which it is held. */
  readonly waits: () => Promise<boolean>;
  /** Ends the connections of those that are held, as when their process is gone: what they were writing is not written. */
  readonly cut: () => Promise<void>;
  /** Lets all go on, now and later. */
  readonly release: () => Promise<void>;
}

const KEY = 7_411;
const WAITING = `SELECT pid FROM pg_locks WHERE locktype = 'advisory' AND objid = ${KEY} AND NOT granted
  AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`;

/**
 * Holds every computation at the moment that a change of its row is to be written for which the condition holds ("NEW.state = 'done'"):
 * what is looked at meanwhile does not hang on who is quicker. Its row can be read all the while.
 */
export const holdComputations = async (
  databaseUrl: string,
  when: string,
): Promise<HeldComputations> => {
  const holder = new pg.Client({ connectionString: databaseUrl });
  await holder.connect();
  await holder.query(`
    SELECT pg_advisory_lock(${KEY});
    CREATE FUNCTION hold_computation() RETURNS trigger LANGUAGE plpgsql AS $$
      BEGIN PERFORM pg_advisory_xact_lock_shared(${KEY}); RETURN NEW; END $$;
    CREATE TRIGGER hold_computation BEFORE UPDATE ON computation FOR EACH ROW WHEN (${when})
      EXECUTE FUNCTION hold_computation()`);
  return {
    waits: async () => (await holder.query(WAITING)).rows.length > 0,
    cut: async () => {
      await holder.query(`SELECT pg_terminate_backend(pid) FROM (${WAITING}) AS held`);
      while ((await holder.query(WAITING)).rows.length > 0);
    },
    release: async () => {
      await holder.query(`SELECT pg_advisory_unlock(${KEY})`);
      await holder.query(
        'DROP TRIGGER hold_computation ON computation; DROP FUNCTION hold_computation',
      );
      await holder.end();
    },
  };
};
