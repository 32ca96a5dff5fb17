import { DataSource } from 'typeorm';
import { currentActor } from '../../apps/api/src/access/acting.js';
import type { RunningApi } from './harness.js';

/** Whether the server asks of its own accord, as for the backup of the day that may begin at any moment. */
const ofTheServer = (): boolean => {
  try {
    const actor = currentActor();
    return actor.kind === 'system' && actor.purpose === 'backup';
  } catch {
    return false;
  }
};

export interface SentStatements {
  /** SQL that a request has sent, in its order. */
  readonly of: (query: string, variables?: object) => Promise<string[]>;
  readonly stop: () => void;
}

/** Listens to what the API sends to its database, whoever runs it. */
export const listenToStatements = async (api: RunningApi): Promise<SentStatements> => {
  const sent: string[] = [];
  const runner = api.served.app.get(DataSource, { strict: false }).createQueryRunner();
  const target = Object.getPrototypeOf(runner) as typeof runner;
  const query = Reflect.get(target, 'query') as (...given: unknown[]) => Promise<unknown>;
  Reflect.set(target, 'query', function (this: object, ...given: unknown[]) {
    if (!ofTheServer()) sent.push(String(given[0]));
    return query.apply(this, given);
  });
  await runner.release();
  return {
    of: async (asked, variables = {}) => {
      sent.length = 0;
      await api.graphql(asked, variables);
      return [...sent];
    },
    stop: () => void Reflect.set(target, 'query', query),
  };
};
