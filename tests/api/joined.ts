import { newRecords } from '../new-records.js';
import type { GraphqlAnswer, RunningApi } from './harness.js';
import { type Browser, newBrowser } from './other-browser.js';

/** Somebody who was invited and came in. */
export type Joined = Browser & { readonly id: string; readonly name: string };

/** Invites somebody and has them come in, in a browser of their own. */
export const joined = async (
  api: RunningApi,
  name: string,
  role: 'PARTNER' | 'HOUSEHOLD' | 'KEEPER',
): Promise<Joined> => {
  const { invitePerson } = await api.graphql<{
    invitePerson: { path: string; account: { person: { id: string } } };
  }>(
    `mutation ($input: InvitePersonInput!) { invitePerson(input: $input) { path account { person { id } } } }`,
    { input: { name, role } },
  );
  const browser = newBrowser(api);
  const token = invitePerson.path.slice('/join#'.length);
  await browser.send(
    'mutation ($input: AcceptInvitationInput!) { acceptInvitation(input: $input) { signedIn } }',
    { input: { token, password: 'three green snails' } },
  );
  return { ...browser, id: invitePerson.account.person.id, name };
};

/** Posts what must succeed, in a browser. */
export const askedIn = async <Data>(
  browser: Browser,
  query: string,
  variables: object = {},
): Promise<Data> => {
  const { data, errors } = await browser.send<Data>(query, variables);
  if (errors !== undefined || data === null) throw new Error(JSON.stringify(errors));
  return data;
};

/** Makes records in a browser; what is refused is thrown with its code. */
export const madeBy = (browser: Browser) =>
  newRecords({
    graphql: <Data>(query: string, variables: object) => askedIn<Data>(browser, query, variables),
  });

/** The code of what was refused. */
export const codeOf = ({ errors }: GraphqlAnswer<unknown>): string | undefined =>
  errors?.[0]?.extensions.code;
