const KEY = 'linewright-line';

/** The line whose pairs were looked at last on this device. */
export function lastLine(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

export function rememberLine(lineIds: readonly string[]): void {
  try {
    const [only] = lineIds;
    if (only !== undefined && lineIds.length === 1) localStorage.setItem(KEY, only);
    else localStorage.removeItem(KEY);
  } catch {
    // A browser that keeps nothing begins with all lines.
  }
}
