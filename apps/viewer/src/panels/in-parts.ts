/** A list in parts of at most so many, in its order, each item once. */
export function inParts<Item>(list: readonly Item[], most: number): Item[][] {
  const once = [...new Set(list)];
  return Array.from({ length: Math.ceil(once.length / most) }, (_, k) =>
    once.slice(k * most, (k + 1) * most),
  );
}
