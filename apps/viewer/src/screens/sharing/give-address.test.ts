import { expect, it } from 'vitest';
import { EVERYTHING, giveAddress } from './give-address.js';

it('a line’s file is for a partner, for anyone with everything, or with the parts chosen', () => {
  expect(giveAddress('L', 'P', EVERYTHING)).toBe('/export/line/L.zip?for=P');
  expect(giveAddress('L', null, EVERYTHING)).toBe('/export/line/L.zip?photos=yes&plans=no');
  expect(giveAddress('L', null, { ...EVERYTHING, plans: true })).toMatch(/plans=yes$/);
  expect(giveAddress('L', null, { ...EVERYTHING, parts: [...EVERYTHING.parts, 'prices'] })).toBe(
    '/export/line/L.zip?photos=yes&plans=no&prices=yes',
  );
  expect(giveAddress('L', null, { ...EVERYTHING, parts: ['scores', 'place'] })).toBe(
    '/export/line/L.zip?parts=scores,place&ancestors=named',
  );
  expect(giveAddress('L', null, { ...EVERYTHING, ancestors: false })).toBe(
    '/export/line/L.zip?parts=scores,photos,notes,water,place',
  );
});
