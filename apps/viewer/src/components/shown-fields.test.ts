import { describe, expect, it } from 'vitest';
import { fieldOf } from './shown-fields.js';

const shown = new Set(['tag', 'values.t1', 'values.t2', 'lines.0.weight', 'lines.1.weight']);
const of = (field: string) => fieldOf({ field, message: 'wrong' }, shown);

describe('the field that a problem of the API speaks of', () => {
  it('is found by its path, or by a last step of its own', () => {
    expect([of('tag'), of('input.tag'), of('scores.t2'), of('lines.1.weight')]).toEqual([
      'tag',
      'tag',
      'values.t2',
      'lines.1.weight',
    ]);
  });

  it('is none when it is not on the screen or might be another', () => {
    expect([of('spawnId'), of('weight'), of('lines')]).toEqual([null, null, null]);
  });
});
