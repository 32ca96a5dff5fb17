/** The shared fields of one record, and its id; empty fields are `null`. */
export type SharedRecord = Readonly<Record<string, unknown>> & { readonly id: string };
