import pg from 'pg';
import { currentActor } from './acting.js';
import { actorSetting } from './actor.js';
import { LENT_SCHEMA } from './grant.js';

type Taken = (
  error: Error | undefined,
  client: pg.PoolClient | undefined,
  release: (error?: Error | boolean) => void,
) => void;

const unheard = (): void => undefined;

/** What each connection was last told; one that was never told has no actor, and sees nothing. */
const told = new WeakMap<pg.PoolClient, string>();

/** Between transactions: what is told within one is taken back with it. */
const isIdle = (client: pg.PoolClient): boolean =>
  (client as { getTransactionStatus?: () => string | null }).getTransactionStatus?.() === 'I';

const TELL = `SELECT set_config('linewright.actor', $1, false)`;

/** Whoever sees a part of the records reads through views in which the rest is empty, whatever a statement asks for. */
const readsLent = (setting: string): boolean => /^(partner|keeper):/.test(setting);

const tellWithViews = (setting: string): string =>
  `${TELL}, set_config('search_path', ${readsLent(setting) ? `'${LENT_SCHEMA}, ' ||` : ''}
     (SELECT reset_val FROM pg_settings WHERE name = 'search_path'), false)`;

const tell = async (client: pg.PoolClient, setting: string): Promise<void> => {
  if (!isIdle(client)) throw new Error('A connection came back in the middle of a transaction.');
  if (told.get(client) === setting) return;
  const before = told.get(client);
  told.delete(client);
  const views = readsLent(setting) || (before !== undefined && readsLent(before));
  await client.query(views ? tellWithViews(setting) : TELL, [setting]);
  told.set(client, setting);
};

/** Idle connections as the pool keeps them; the last is the next to be taken. */
interface WithIdle {
  readonly _idle?: { readonly client: pg.PoolClient }[];
}

/** Has the pool hand out a connection that was told this actor before, where one is idle: it need not be told again. */
const preferTold = (pool: WithIdle, setting: string): void => {
  const idle = pool._idle ?? [];
  const at = idle.findLastIndex(({ client }) => told.get(client) === setting);
  if (at >= 0) idle.push(...idle.splice(at, 1));
};

/**
 * A pool whose connections know for whom they are taken: before one is handed out, it is told the actor of whoever takes it, unless it
 * was for the same one before. So no connection keeps a former actor, and an owner alone pays one statement a connection.
 */
class DoorPool extends pg.Pool {
  override connect(): Promise<pg.PoolClient>;
  override connect(taken: Taken): void;
  override connect(taken?: Taken): Promise<pg.PoolClient> | void {
    const client = this.takeFor();
    if (taken === undefined) return client;
    client.then(
      (found) => taken(undefined, found, (error) => found.release(error)),
      (error: Error) => taken(error, undefined, () => undefined),
    );
  }

  private async takeFor(): Promise<pg.PoolClient> {
    const setting = actorSetting(currentActor());
    preferTold(this as unknown as WithIdle, setting);
    const client = await super.connect();
    // Between the pool's own listener and that of whoever takes it: a server that dies then is told by the statement that waits.
    client.on('error', unheard);
    try {
      await tell(client, setting);
      return client;
    } catch (error) {
      client.release(true);
      throw error;
    } finally {
      client.off('error', unheard);
    }
  }
}

/** The driver as the data source is given it. */
export const doorDriver: typeof pg = Object.assign(Object.create(pg) as typeof pg, {
  Pool: DoorPool,
});
