import type { Entry } from './entry.js';

/** An entry as version 1 of the device's store kept it: the scores of a fish were called its entries. */
interface OlderInput {
  readonly entries?: unknown;
}

/** The API's word for what its operations do not know, which a page from before got for an entry as it kept it. */
const UNKNOWN_TO_THE_API = 'BAD_USER_INPUT';

/**
 * An entry that version 1 kept, as it is kept and sent today. One that the API refused for its old form alone waits again; all else of
 * it stays as it was, and so does an entry that is as today's already.
 */
export function fromVersionOne<Some extends Entry>(kept: Some): Some {
  const { entries, ...input } = kept.input as OlderInput;
  if (entries === undefined) return kept;
  const renamed = { ...kept, input: { ...input, scores: entries } };
  if (kept.state !== 'refused' || kept.problem?.code !== UNKNOWN_TO_THE_API) return renamed;
  const { problem: _, ...again } = renamed;
  return { ...again, state: 'waiting', attempts: 0 } as Some;
}
