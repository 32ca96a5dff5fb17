import type { Problem } from './problem.js';

export const UNREACHABLE =
  'Linewright did not answer while the file was sent: check the connection, then choose it again.';

/** What the server said, out of its answer. */
export const refusal = (text: string): string => {
  try {
    const { message } = JSON.parse(text) as { message?: unknown };
    return typeof message === 'string' ? message : UNREACHABLE;
  } catch {
    return UNREACHABLE;
  }
};

/** What came of sending: an answer, or what went wrong. */
export type Sent<Answer> = { answer: Answer } | { problem: Problem };

export const told = (message: string): Problem => ({
  ...{ code: 'NOT_SENT', message, fields: [], reference: null },
});

/** Sends a line's file under an id, as it is; `null`, or what went wrong. */
export async function sendLineFile(id: string, file: Blob): Promise<Problem | null> {
  try {
    const answer = await fetch(`/line-files/${id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/octet-stream' },
      body: file,
    });
    return answer.ok ? null : told(refusal(await answer.text()));
  } catch {
    return told(UNREACHABLE);
  }
}
