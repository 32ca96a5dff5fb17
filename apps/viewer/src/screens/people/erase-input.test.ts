import { expect, it } from 'vitest';
import { erased } from './erase-input.js';

const typed = { password: 'p', confirm: ' Runa ', heirId: 'h', withBackups: true };

it('what is erased says what becomes of the install only where that was chosen', () => {
  expect(erased({ ...typed, afterwards: '' }).input).toEqual({ confirm: 'Runa' });
  expect(erased({ ...typed, afterwards: 'HAND_OVER' }).input).toEqual({
    ...{ confirm: 'Runa', afterwards: 'HAND_OVER', heirId: 'h' },
  });
  expect(erased({ ...typed, afterwards: 'END' }).input).toEqual({
    ...{ confirm: 'Runa', afterwards: 'END', withBackups: true },
  });
});
