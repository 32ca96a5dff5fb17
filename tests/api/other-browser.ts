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

/** A partner who was invited by whoever is signed in there, and came in by the link. */
export const joinedAs = async (
  api: RunningApi,
  name: string,
): Promise<Browser & { id: string }> => {
  const { invitePerson } = await api.graphql<{
    invitePerson: { path: string; account: { person: { id: string } } };
  }>(
    `mutation ($name: String!) { invitePerson(input: { name: $name, role: PARTNER }) { path account { person { id } } } }`,
    { name },
  );
  const browser = newBrowser(api);
  const input = { token: invitePerson.path.slice('/join#'.length), password: 'three green snails' };
  await browser.send(
    'mutation ($input: AcceptInvitationInput!) { acceptInvitation(input: $input) { signedIn } }',
    { input },
  );
  return { ...browser, id: invitePerson.account.person.id };
};
