export interface Saying {
  readonly key: string;
  readonly texts: readonly string[];
}

export interface SaidOnce {
  /** What nothing before it in the list said. */
  readonly texts: readonly string[];
  /** Key of the first before it that said some of the rest; null where all is said here. */
  readonly before: string | null;
}

/** Of a list in which several say the same: each text with the first that says it, and where the others find it. By key. */
export function saidOnce(list: readonly Saying[]): ReadonlyMap<string, SaidOnce> {
  const saidAt = new Map<string, string>();
  const found = new Map<string, SaidOnce>();
  for (const { key, texts } of list) {
    const before = texts.map((text) => saidAt.get(text)).find((at) => at !== undefined) ?? null;
    found.set(key, { texts: texts.filter((text) => !saidAt.has(text)), before });
    for (const text of texts) if (!saidAt.has(text)) saidAt.set(text, key);
  }
  return found;
}
