import { AsyncLocalStorage } from 'node:async_hooks';
import type { Server, ServerResponse } from 'node:http';
import { DataSource } from 'typeorm';
import type { RunningApi } from './harness.js';

export interface SentStatements {
  /** SQL that a request has sent before its answer was whole, in its order; not what the server does of its own accord meanwhile. */
  readonly of: (query: string, variables?: object) => Promise<string[]>;
  readonly stop: () => void;
}

/** Ties to each request the answer that it is for, so that whoever works for it can be told from work in the background. */
const knowRequests = (server: Server): AsyncLocalStorage<ServerResponse> => {
  const answering = new AsyncLocalStorage<ServerResponse>();
  const emit = server.emit.bind(server);
  server.emit = (event: string, ...given: unknown[]) =>
    event === 'request'
      ? answering.run(given[1] as ServerResponse, () => emit(event, ...given))
      : emit(event, ...given);
  return answering;
};

/** Listens to what the API sends to its database, whoever runs it. */
export const listenToStatements = async (api: RunningApi): Promise<SentStatements> => {
  const sent: string[] = [];
  const answering = knowRequests(api.served.app.getHttpServer() as Server);
  const runner = api.served.app.get(DataSource, { strict: false }).createQueryRunner();
  const target = Object.getPrototypeOf(runner) as typeof runner;
  const query = Reflect.get(target, 'query') as (...given: unknown[]) => Promise<unknown>;
  Reflect.set(target, 'query', function (this: object, ...given: unknown[]) {
    if (answering.getStore()?.writableEnded === false) sent.push(String(given[0]));
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
