import type { Disposition } from '../../wording/words.js';

export const decisions: readonly { key: string; disposition: Disposition; word: string }[] = [
  { key: 'k', disposition: 'KEEPER', word: 'Keep' },
  { key: 'h', disposition: 'HOLD', word: 'Hold' },
  { key: 'c', disposition: 'CULLED', word: 'Cull' },
  { key: 'p', disposition: 'PLACED', word: 'Place' },
];
