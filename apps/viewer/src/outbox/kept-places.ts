const keyOf = (personId: string) => `linewright-bench ${personId}`;

/** This tab's own first, then what any tab of the device kept last: two tabs do not move each other. */
const stores = (): Storage[] => [window.sessionStorage, window.localStorage];

/** Where a person was at their benches, as text; at once and not in a database, so that a reload in mid-word loses nothing. */
export function keptPlaces(personId: string): (string | null)[] {
  try {
    return stores().map((store) => store.getItem(keyOf(personId)));
  } catch {
    return [];
  }
}

export function keepPlaces(personId: string, next: (before: string | null) => string): void {
  try {
    for (const store of stores())
      store.setItem(keyOf(personId), next(store.getItem(keyOf(personId))));
  } catch {
    // A browser that keeps nothing: the place lasts as long as the page.
  }
}

export function forgetPlaces(personId: string): void {
  try {
    for (const store of stores()) store.removeItem(keyOf(personId));
  } catch {
    // Then nothing was kept.
  }
}
