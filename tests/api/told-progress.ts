import { type RunningApi, recordsOf } from './harness.js';

/** Notes from here on each share that is written of a computation, whoever asks for it meanwhile or does not. */
export const noteProgress = async (api: RunningApi): Promise<void> => {
  const db = await recordsOf(api);
  await db.query(`
    CREATE TABLE told_progress (n bigint GENERATED ALWAYS AS IDENTITY, computation_id uuid NOT NULL, share float8 NOT NULL);
    CREATE FUNCTION note_progress() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER AS $$
      BEGIN INSERT INTO told_progress (computation_id, share) VALUES (NEW.id, NEW.progress); RETURN NULL; END $$;
    CREATE TRIGGER note_progress AFTER UPDATE ON computation FOR EACH ROW EXECUTE FUNCTION note_progress()`);
};

/** All shares written of it since, in their order. */
export const toldOf = async (api: RunningApi, computationId: string): Promise<number[]> => {
  const db = await recordsOf(api);
  const rows = (await db.query(
    'SELECT share FROM told_progress WHERE computation_id = $1 ORDER BY n',
    [computationId],
  )) as { share: number }[];
  return rows.map(({ share }) => share);
};
