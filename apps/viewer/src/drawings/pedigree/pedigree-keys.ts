import type { Move } from '@linewright/pedigree-layout';

/** What a key does in the drawing. */
export type KeyAct =
  | { readonly kind: 'zoom'; readonly factor: number }
  | { readonly kind: 'all' }
  | { readonly kind: 'focus' }
  | { readonly kind: 'open' }
  | { readonly kind: 'go'; readonly move: Move };

export const ZOOM_IN = 1.25;
export const ZOOM_OUT = 0.8;

const ARROWS: Readonly<Record<'down' | 'right', Readonly<Record<string, Move>>>> = {
  down: { ArrowUp: 'parent', ArrowDown: 'young', ArrowLeft: 'before', ArrowRight: 'after' },
  right: { ArrowLeft: 'parent', ArrowRight: 'young', ArrowUp: 'before', ArrowDown: 'after' },
};

const LETTERS: Readonly<Record<string, Move>> = {
  s: 'sire',
  d: 'dam',
  m: 'mate',
  Home: 'first',
  End: 'last',
};

const COMMANDS: Readonly<Record<string, KeyAct>> = {
  '+': { kind: 'zoom', factor: ZOOM_IN },
  '=': { kind: 'zoom', factor: ZOOM_IN },
  '-': { kind: 'zoom', factor: ZOOM_OUT },
  '0': { kind: 'all' },
  f: { kind: 'focus' },
  Enter: { kind: 'open' },
  ' ': { kind: 'open' },
};

interface Pressed {
  readonly key: string;
  readonly ctrlKey?: boolean;
  readonly metaKey?: boolean;
  readonly altKey?: boolean;
}

/** `null` for a key that is the browser's. Arrows follow the drawing: towards the parents is where they are drawn. */
export function keyAct(pressed: Pressed, orientation: 'down' | 'right'): KeyAct | null {
  const { key } = pressed;
  if (pressed.ctrlKey === true || pressed.metaKey === true || pressed.altKey === true) return null;
  const move = ARROWS[orientation][key] ?? LETTERS[key];
  return COMMANDS[key] ?? (move === undefined ? null : { kind: 'go', move });
}
