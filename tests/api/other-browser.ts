import type { GraphqlAnswer, RunningApi } from './harness.js';

/** A browser beside that of the harness, with a session of its own. */
export interface Browser {
  send<Data = Record<string, unknown>>(
    query: string,
    variables?: object,
  ): Promise<GraphqlAnswer<Data>>;
  /** One of the plain routes. */
  http(path: string, init?: RequestInit): Promise<Response>;
}

/** One that nobody is signed in in yet; it says of itself what `userAgent` says. */
export const newBrowser = (api: RunningApi, userAgent = 'test'): Browser => {
  let cookie = '';
  return {
    http: (path, init = {}) => {
      const headers = new Headers(init.headers);
      headers.set('cookie', cookie);
      return fetch(`${api.url}${path}`, { ...init, headers });
    },
    send: async <Data>(query: string, variables: object = {}) => {
      const response = await fetch(`${api.url}/graphql`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', cookie, 'user-agent': userAgent },
        body: JSON.stringify({ query, variables }),
      });
      const set = response.headers.get('set-cookie');
      if (set !== null) cookie = set.split(';')[0] ?? '';
      return (await response.json()) as GraphqlAnswer<Data>;
    },
  };
};
