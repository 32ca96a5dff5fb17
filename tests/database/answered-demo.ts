/** Asks a server, signed in there, for the answer to a query. */
export type Ask = <Data>(query: string, variables?: object) => Promise<Data>;

interface Waited {
  readonly asked: { readonly waiting: { readonly id: string; readonly state: string } | null };
}

const KEPT = '{ traits { id } lines { id } }';
const VALUES = 'query ($of: ID!) { asked: traitMerit(traitId: $of) { waiting { id state } } }';
const PAIRS = `query ($of: ID!) {
  asked: pairingCandidates(first: 1, input: { lineIds: [$of] }) { waiting { id state } } }`;
const ENDED = /^(FAILED|CANCELLED)$/;

/** Asks until nothing is waited for any more. */
const answered = async (ask: Ask, query: string, of: string): Promise<void> => {
  for (;;) {
    const { waiting } = (await ask<Waited>(query, { of })).asked;
    if (waiting === null) return;
    if (ENDED.test(waiting.state)) throw new Error(`Waited in vain: ${waiting.state}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
};

/**
 * Has a server work out what its records are asked for again and again: breeding values of each trait, and what pairs of a line are
 * judged by. It stores the answers with its records, for every process: whoever is given a copy of them finds these as well.
 */
export const askForAnswers = async (ask: Ask): Promise<void> => {
  const { traits, lines } = await ask<Record<'traits' | 'lines', { id: string }[]>>(KEPT);
  // All of them are begun before the first is waited for.
  for (const { id } of traits) await ask(VALUES, { of: id });
  for (const { id } of traits) await answered(ask, VALUES, id);
  for (const { id } of lines) await answered(ask, PAIRS, id);
};
