const keyOf = (keeperId: string) => `linewright-bench ${keeperId}`;

/** This tab's own first, then what any tab of the device kept last: two tabs do not move each other. */
const stores = (): Storage[] => [window.sessionStorage, window.localStorage];

/** Where a keeper was at their benches, as text; at once and not in a database, so that a reload in mid-word loses nothing. */
export function keptPlaces(keeperId: string): (string | null)[] {
  try {
    return stores().map((store) => store.getItem(keyOf(keeperId)));
  } catch {
    return [];
  }
}

export function keepPlaces(keeperId: string, next: (before: string | null) => string): void {
  try {
    for (const store of stores())
      store.setItem(keyOf(keeperId), next(store.getItem(keyOf(keeperId))));
  } catch {
    // A browser that keeps nothing: the place lasts as long as the page.
  }
}

export function forgetPlaces(keeperId: string): void {
  try {
    for (const store of stores()) store.removeItem(keyOf(keeperId));
  } catch {
    // Then nothing was kept.
  }
}
