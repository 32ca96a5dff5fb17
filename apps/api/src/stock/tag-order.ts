const inOrder = new Intl.Collator('en', { numeric: true });

/** Tags as people count: W26-01-99 before W26-01-100, which no order of letters gives. */
export const compareTags = (a: { readonly tag: string }, b: { readonly tag: string }): number =>
  inOrder.compare(a.tag, b.tag);
