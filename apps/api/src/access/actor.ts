/**
 * What an account may do: all; all records, but not the install itself (household); what it was granted (partner); or that and all with lines
 * of its own, which nobody else sees unless they say so (keeper).
 */
export type AccountRole = 'owner' | 'household' | 'partner' | 'keeper';

/** Somebody with an account here. */
export interface AccountActor {
  readonly kind: 'account';
  /** Id of the account. */
  readonly id: string;
  readonly name: string;
  readonly role: AccountRole;
  /** True where keepers have lines of their own here, which the owner and the household do not see. */
  readonly amongKeepers?: boolean;
  /** True where it is the owner who looks at what this account sees: then nothing is changed. */
  readonly looking?: boolean;
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
  /** Works out what lines that are shown to the club, or counted in it, have in common; single fish are not told. */
  | 'club'
  /** Tells whether the database answers. */
  | 'health';

/** For whom something is read or written. */
export type Actor = AccountActor | SystemActor;

/** True for who sees what was granted to them and what is their own: they read through views in which the rest is empty. */
export const seesByGrant = (role: AccountRole): boolean => role === 'partner' || role === 'keeper';

/** True for who sees every record: the program, and the owner and the household where no keeper has lines of their own. */
export const seesAll = (actor: Actor): boolean =>
  actor.kind === 'system' || (!seesByGrant(actor.role) && actor.amongKeepers !== true);

/**
 * The actor as a connection carries it, in the setting `linewright.actor`: `system`, or the role and the id, such as `partner:UUID`. The policies of the
 * tables read it there.
 */
export const actorSetting = (actor: Actor): string =>
  actor.kind === 'system' ? 'system' : `${actor.role}:${actor.id}`;
