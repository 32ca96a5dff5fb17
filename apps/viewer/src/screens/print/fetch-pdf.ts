import type { Problem } from '../../api/problem.js';

/** Servers and what stands before them cut longer addresses off. */
const LONGEST_QUERY = 6_000;

/** Milliseconds that the browser has for taking the file over. */
const HANDED_OVER = 60_000;

function hand(pdf: Blob, name: string): void {
  const address = URL.createObjectURL(pdf);
  const link = document.createElement('a');
  link.href = address;
  link.download = `${name}.pdf`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), HANDED_OVER);
}

/** Hands the PDF to the browser, or tells why there is none. */
export async function fetchPdf(
  path: string,
  query: URLSearchParams,
  name: string,
): Promise<Problem | null> {
  const many = query.toString().length > LONGEST_QUERY;
  const response = await fetch(many ? path : `${path}?${query.toString()}`, {
    credentials: 'same-origin',
    ...(many && {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(Object.fromEntries(query)),
    }),
  }).catch(() => null);
  if (response?.ok === true) {
    hand(await response.blob(), name);
    return null;
  }
  const told = (await response?.json().catch(() => null)) as { message?: string } | null;
  return {
    code: 'PRINT',
    message:
      told?.message ??
      'Linewright does not answer. Check the connection and that it is running, then try again. What you chose is kept.',
    fields: [],
    reference: null,
  };
}
