const inOrder = new Intl.Collator('en', { numeric: true });

/** Tags as people count: W26-01-99 before W26-01-100. */
export const compareTags = (a: string, b: string): number => inOrder.compare(a, b);
