import type { Disposition } from '../../wording/words.js';
import { decisions } from './decisions.js';

/** What a key does on a row of the list. */
export type RowStep = 'down' | 'up' | 'undo' | { readonly decide: Disposition };

interface Pressed {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

export function rowStep({ key, ctrlKey, metaKey, altKey }: Pressed): RowStep | null {
  if (ctrlKey || metaKey || altKey) return null;
  if (key === 'ArrowDown') return 'down';
  if (key === 'ArrowUp') return 'up';
  const pressed = key.toLowerCase();
  if (pressed === 'u') return 'undo';
  const decision = decisions.find((each) => each.key === pressed);
  return decision === undefined ? null : { decide: decision.disposition };
}
