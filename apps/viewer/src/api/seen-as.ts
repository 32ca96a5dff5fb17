const KEY = 'linewright-seen-as';

/** As which partner the owner looks in this tab; null for themselves. */
export function seenAs(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

/** What a request says of it. */
export function seenAsHeader(): Record<string, string> {
  const id = seenAs();
  return id === null ? {} : { 'Linewright-Seen-As': id };
}

/** Loads a page again as a partner sees it, in this tab alone; null: as oneself. */
export function lookAs(personId: string | null, address: string): void {
  try {
    if (personId === null) sessionStorage.removeItem(KEY);
    else sessionStorage.setItem(KEY, personId);
  } catch {
    // A browser that keeps nothing shows the page as it was.
  }
  // A fresh page leaves nothing in memory that the other may not see.
  window.location.assign(address);
}
