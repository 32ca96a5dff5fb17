import type { FieldConflict } from './conflict-notice.js';

/**
 * The fields, by the names that people read, in which what was typed is not what is recorded now. `chosen` holds what is
 * recorded, in words, where a field keeps an id.
 */
export function conflictsBetween<Field extends string>(
  names: Readonly<Record<Field, string>>,
  mine: Readonly<Record<NoInfer<Field>, string>>,
  theirs: Readonly<Record<NoInfer<Field>, string>>,
  chosen: Partial<Readonly<Record<NoInfer<Field>, string>>> = {},
): FieldConflict[] {
  return (Object.keys(names) as Field[])
    .filter((field) => mine[field] !== theirs[field])
    .map((field) => ({
      field: names[field],
      mine: field in chosen && mine[field] !== '' ? 'your choice in the form' : mine[field],
      saved: chosen[field] ?? theirs[field],
    }));
}

interface WithParents {
  readonly line: { readonly code: string } | null;
  readonly sire: { readonly tag: string } | null;
  readonly dam: { readonly tag: string } | null;
}

/** What is recorded of line and parents, in words, where a form keeps their ids. */
export const chosenIn = ({ line, sire, dam }: WithParents) => ({
  lineId: line?.code ?? '',
  sireId: sire?.tag ?? '',
  damId: dam?.tag ?? '',
});
