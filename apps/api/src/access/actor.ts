/** What an account may do: all; all records, but not the install itself (household); or what it was granted. */
export type AccountRole = 'owner' | 'household' | 'partner';

/** Somebody with an account here. */
export interface AccountActor {
  readonly kind: 'account';
  /** Id of the account. */
  readonly id: string;
  readonly name: string;
  readonly role: AccountRole;
}

/** Work of the program's own, on behalf of nobody: it sees all, and what it writes names no account. */
export interface SystemActor {
  readonly kind: 'system';
  /** What it is at, for whoever reads the database's list of connections. */
  readonly purpose: SystemPurpose;
}

/** Every kind of work that goes past the door, so that a new one is a decision. */
export type SystemPurpose =
  /** Makes the schema and hands the tables out. */
  | 'migration'
  /** Looks up accounts and sessions, before it is known who asks. */
  | 'entrance'
  /** Loads the demo into an empty install and clears it. */
  | 'demo'
  /** Copies everything into a file, and back. */
  | 'backup'
  /** Takes long computations up and notes how far they are; the computing itself is done for who asked. */
  | 'jobs'
  /** Holds the whole pedigree in memory: an F needs every ancestor. */
  | 'pedigree'
  /** Sex and links of fish that are drawn without their names. */
  | 'masking'
  /** Gives partners' installs what was granted to them, and takes theirs in. */
  | 'exchange'
  /** Writes what two people agreed about a fish, once it is known which of them asks and that they may. */
  | 'hand-over'
  /** Tells, hands out and erases what is somebody's own, whoever may see it. */
  | 'own-data'
  /** Tells whether the database answers. */
  | 'health';

/** For whom something is read or written. */
export type Actor = AccountActor | SystemActor;

/** True for who may see every record. The database's own word for it is `door_open()`. */
export const seesAll = (actor: Actor): boolean =>
  actor.kind === 'system' || actor.role !== 'partner';

/**
 * The actor as a connection carries it, in the setting `linewright.actor`: `system`, or the role and the id, such as `partner:UUID`. The policies of the
 * tables read it there.
 */
export const actorSetting = (actor: Actor): string =>
  actor.kind === 'system' ? 'system' : `${actor.role}:${actor.id}`;
