import { useState, type ReactNode } from 'react';
import { Client, fetchExchange, Provider, type AnyVariables, type TypedDocumentNode } from 'urql';

/** What is answered to one query, by its name. */
export interface Answer {
  readonly name: string;
  /** `null`: the answer never comes. */
  readonly body: object | null;
}

function nameOf<Data, Variables extends AnyVariables>(
  query: TypedDocumentNode<Data, Variables>,
): string {
  const [first] = query.definitions;
  return first !== undefined && 'name' in first ? (first.name?.value ?? '') : '';
}

export const answers = <Data, Variables extends AnyVariables>(
  query: TypedDocumentNode<Data, Variables>,
  data: NoInfer<Data>,
): Answer => ({ name: nameOf(query), body: { data } });

export const refuses = <Data, Variables extends AnyVariables>(
  query: TypedDocumentNode<Data, Variables>,
  message: string,
): Answer => ({
  name: nameOf(query),
  body: { errors: [{ message, extensions: { code: 'BAD_INPUT', fields: [] } }] },
});

export const neverAnswers = <Data, Variables extends AnyVariables>(
  query: TypedDocumentNode<Data, Variables>,
): Answer => ({ name: nameOf(query), body: null });

const inventedFetch =
  (given: readonly Answer[]): typeof fetch =>
  (_, init) => {
    const { operationName } = JSON.parse(init?.body as string) as { operationName: string };
    const body = given.find(({ name }) => name === operationName)?.body ?? null;
    if (body === null) return new Promise(() => undefined);
    const headers = { 'content-type': 'application/json' };
    return Promise.resolve(new Response(JSON.stringify(body), { headers }));
  };

/** A part that fetches, with invented answers; what none is given for stays on its way. */
export function Answering({
  with: given,
  children,
}: {
  with: readonly Answer[];
  children: ReactNode;
}) {
  const [client] = useState(
    () =>
      new Client({
        url: '/graphql',
        preferGetMethod: false,
        fetch: inventedFetch(given),
        exchanges: [fetchExchange],
      }),
  );
  return <Provider value={client}>{children}</Provider>;
}
