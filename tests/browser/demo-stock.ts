import type { Page } from 'playwright-core';
import { quiet } from './looking.js';

/** Asks the server behind the open page, as the person signed in there; a refusal fails the test. */
export const ask = async <Data>(
  page: Page,
  query: string,
  variables: object = {},
): Promise<Data> => {
  const { data, errors } = await page.evaluate(
    async (sent) => {
      const response = await fetch('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(sent),
      });
      return (await response.json()) as { data: never; errors?: unknown };
    },
    { query, variables },
  );
  if (errors !== undefined) throw new Error(JSON.stringify(errors));
  return data;
};

interface BlueFish {
  readonly tag: string;
  readonly line: { readonly code: string } | null;
}

/** Tag of the youngest brood of the demo's blue line that has fish of its own here: the demo's tags move with the year. */
export const blueBrood = async (page: Page): Promise<string> => {
  const { fishList } = await ask<{ fishList: { edges: { node: BlueFish }[] } }>(
    page,
    `{
      fishList(
        first: 200
        filter: { dispositions: [KEEPER, HOLD, UNSORTED], place: HERE }
        sort: { field: HATCH_DATE, direction: DESC }
      ) {
        edges {
          node {
            tag
            line {
              code
            }
          }
        }
      }
    }`,
  );
  const blue = fishList.edges.find(({ node }) => node.line?.code === 'RB')?.node.tag;
  if (blue === undefined) throw new Error('The demo has no fish of its blue line here.');
  return blue.replace(/-\d+$/, '');
};

/** Types into the list's "Find" and waits until the list shows what was found, and nothing else. */
export const findInList = (page: Page, text: string): Promise<void> =>
  quiet(page, async () => {
    await page.getByLabel('Find').fill(text);
    await page.waitForURL((address) => address.searchParams.get('text') === text);
  });
