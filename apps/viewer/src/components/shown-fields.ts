import { createContext, useContext, useEffect } from 'react';
import type { FieldProblem } from '../api/problem.js';

/** Names of a form's fields that are on the screen and show what is wrong with them. */
export const ShownFields = createContext<Set<string> | null>(null);

/** For every part that shows a field's error: what is told there need not be told again above the buttons. */
export function useShownField(name: string): void {
  const shown = useContext(ShownFields);
  useEffect(() => {
    shown?.add(name);
    return () => {
      shown?.delete(name);
    };
  }, [shown, name]);
}

const lastStep = (path: string): string => path.slice(path.lastIndexOf('.') + 1);

/** The field on the screen that a problem of the API speaks of: by its whole path, or by a last step no other has. */
export function fieldOf({ field }: FieldProblem, shown: ReadonlySet<string>): string | null {
  if (shown.has(field)) return field;
  const alike = [...shown].filter((name) => lastStep(name) === lastStep(field));
  return alike.length === 1 ? (alike[0] ?? null) : null;
}
