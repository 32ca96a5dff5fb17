import type { Page, Response } from 'playwright-core';
import { settleAt } from '../../browser/looking.js';
import type { Stock } from './stock.js';

/** A question that a screen sent, as it was sent. */
export interface Question {
  readonly name: string;
  readonly body: string;
}

export interface Opened {
  readonly screen: string;
  /** Until nothing more was asked and nothing is said to load; a quiet moment of 150 ms is part of it. */
  readonly settledMs: number;
  readonly nodes: number;
  /** Of the answers of this screen, as they came over the wire. */
  readonly bytes: number;
  readonly questions: readonly Question[];
}

/** Where a keeper goes, with the large line's fish. */
export const addresses = ({
  lineId,
  sireId,
  damId,
  spawnId,
  traitId,
}: Stock): readonly string[] => [
  ...['/today', '/fish', '/spawns', '/lines', '/next-pairing', '/planned', '/water', '/care-plans'],
  ...['/crosses', '/loci', '/inheritance', '/contradictions', '/traits', '/score-sheets'],
  ...['/people', '/sharing', '/export-and-backup', '/club', '/hand-overs', '/fish-acts', '/print'],
  ...[
    `/fish/${sireId}`,
    `/fish/${sireId}/pedigree`,
    `/spawns/${spawnId}`,
    `/spawns/${spawnId}/sort`,
  ],
  ...[`/lines/${lineId}`, `/lines/${lineId}/health`, `/lines/${lineId}/relationship`],
  ...[`/lines/${lineId}/outcross`, `/lines/${lineId}/purpose`, `/lines/${lineId}/routes`],
  ...[`/next-pairing?lines=${lineId}`, `/pair/${sireId}/${damId}`, `/traits/${traitId}`],
];

/** Reads the name of a GraphQL operation out of the request that asks it. */
const questionOf = (response: Response): Question | null => {
  const request = response.request();
  const body = request.postData();
  if (!request.url().endsWith('/graphql') || body === null) return null;
  const { query } = JSON.parse(body) as { query: string };
  const name = /^\s*query\s+(\w+)/.exec(query)?.[1];
  return name === undefined ? null : { name, body };
};

/** Opens a screen and notes what it asked, how long until it stands, and how much it drew. */
export const openScreen = async (page: Page, url: string, screen: string): Promise<Opened> => {
  const questions: Question[] = [];
  let bytes = 0;
  const sizes: Promise<void>[] = [];
  const heard = (response: Response): void => {
    const question = questionOf(response);
    if (question === null) return;
    questions.push(question);
    const size = response
      .request()
      .sizes()
      .then(({ responseBodySize }) => void (bytes += responseBodySize));
    sizes.push(size.catch(() => undefined));
  };
  page.on('response', heard);
  const since = performance.now();
  try {
    await settleAt(page, `${url}${screen}`);
  } finally {
    page.off('response', heard);
  }
  const settledMs = performance.now() - since;
  await Promise.all(sizes);
  const nodes = await page.evaluate(() => document.querySelectorAll('*').length);
  return { screen, settledMs, nodes, bytes, questions };
};
