import type { DataSource } from 'typeorm';
import { AccountsService } from '../accounts/accounts.service.js';
import { ProgramTokens } from '../accounts/program-tokens.service.js';
import { RefusedAttempts } from '../accounts/refused-attempts.service.js';
import { SecondStepService } from '../accounts/second-step.service.js';
import { SessionService } from '../accounts/session.service.js';
import type { Clock } from '../clock/clock.js';
import type { Config } from '../config/config.js';
import type { SignedInPerson } from '../graphql/request-context.js';

/** A message for the person at the shell; its stack says nothing to them. */
export class CommandError extends Error {}

export const accountsOf = (
  dataSource: DataSource,
  config: Config,
  clock: Clock,
): AccountsService => {
  const attempts = new RefusedAttempts(dataSource);
  const tokens = new ProgramTokens(dataSource, clock);
  return new AccountsService(
    dataSource,
    new SessionService(dataSource, attempts, tokens, clock),
    new SecondStepService(dataSource, attempts, clock),
    config,
  );
};

/** The person that files are read for; with a name and `OWNER_PASSWORD`, made on a database that has none. */
export const ownerOf = async (
  dataSource: DataSource,
  config: Config,
  newPerson: string | undefined,
  clock: Clock,
): Promise<SignedInPerson> => {
  const accounts = accountsOf(dataSource, config, clock);
  const owner = await accounts.owner();
  if (owner !== null) return { id: owner.id, name: owner.name, role: 'owner', keepsFor: owner.id };
  if (newPerson === undefined) {
    throw new CommandError(
      'This database has no owner yet. Start the program once and set a password, or give --owner NAME and set OWNER_PASSWORD.',
    );
  }
  if (config.ownerPassword === undefined) {
    throw new CommandError(
      '--owner makes the owner of an empty database: set OWNER_PASSWORD (at least 10 characters) as well.',
    );
  }
  const made = await accounts.createOwner(newPerson, config.ownerPassword);
  return { id: made.id, name: made.name, role: 'owner', keepsFor: made.id };
};
