import { expect, it } from 'vitest';
import { saidOnce } from './said-once.js';

it('says each text with the first that has it, and leads the others there', () => {
  const said = saidOnce([
    { key: 'a', texts: ['unplug'] },
    { key: 'b', texts: ['unplug', 'treat'] },
    { key: 'c', texts: ['treat'] },
    { key: 'd', texts: [] },
  ]);
  expect(said.get('a')).toEqual({ texts: ['unplug'], before: null });
  expect(said.get('b')).toEqual({ texts: ['treat'], before: 'a' });
  expect(said.get('c')).toEqual({ texts: [], before: 'b' });
  expect(said.get('d')).toEqual({ texts: [], before: null });
});

it('says it in full again once the first is gone', () => {
  expect(saidOnce([{ key: 'b', texts: ['unplug'] }]).get('b')?.texts).toEqual(['unplug']);
});
