import 'reflect-metadata';
import { parseArgs } from 'node:util';
import { secretAsker } from './ask-secret.js';
import { accountsOf, CommandError } from './owner.js';
import { readWith, runShell } from './run.js';

const newPassword = async (signal: AbortSignal): Promise<string> => {
  const { ask, asksTwice, close } = secretAsker(signal);
  try {
    const password = await ask('New password (at least 10 characters): ');
    if (asksTwice && (await ask('Once more: ')) !== password)
      throw new CommandError('The two are not the same: nothing was changed. Try again.');
    return password;
  } finally {
    close();
  }
};

await runShell(
  () => readWith('npm run password', () => parseArgs({ options: {} })),
  async (_, { dataSource, config, clock, signal }) => {
    const accounts = accountsOf(dataSource, config, clock);
    const owner = await accounts.owner();
    if (owner === null)
      throw new CommandError(
        'These records have no owner yet: start the program and open its address to set the first password.',
      );
    await accounts.replacePassword(owner.id, await newPassword(signal));
    process.stdout.write(
      `${owner.name} has a new password. Every browser that was signed in has to sign in again. Codes from a phone, passkeys and tokens of programs have ended: set them up again.\n`,
    );
    return 0;
  },
);
