import { describe, expect, it } from 'vitest';
import { keyAct } from './pedigree-keys.js';

describe('keys of the pedigree', () => {
  it('lead to the parents where the parents are drawn', () => {
    expect(keyAct({ key: 'ArrowUp' }, 'down')).toEqual({ kind: 'go', move: 'parent' });
    expect(keyAct({ key: 'ArrowLeft' }, 'right')).toEqual({ kind: 'go', move: 'parent' });
    expect(keyAct({ key: 'ArrowUp' }, 'right')).toEqual({ kind: 'go', move: 'before' });
  });

  it('name sire, dam and mate by their first letter', () => {
    const moves = ['s', 'd', 'm'].map((key) => keyAct({ key }, 'down'));
    expect(moves).toEqual(['sire', 'dam', 'mate'].map((move) => ({ kind: 'go', move })));
  });

  it('zoom and open', () => {
    const kinds = ['+', '=', '-', '0', 'f', 'Enter', ' '].map(
      (key) => keyAct({ key }, 'down')?.kind,
    );
    expect(kinds).toEqual(['zoom', 'zoom', 'zoom', 'all', 'focus', 'open', 'open']);
    expect(keyAct({ key: '-' }, 'down')).toMatchObject({ factor: 0.8 });
  });

  it('leave all others, and those held with Ctrl, Alt or the command key, to the browser', () => {
    expect(keyAct({ key: 'Tab' }, 'down')).toBeNull();
    expect(keyAct({ key: '+', ctrlKey: true }, 'down')).toBeNull();
    expect(keyAct({ key: 'ArrowLeft', altKey: true }, 'down')).toBeNull();
    expect(keyAct({ key: 'f', metaKey: true }, 'down')).toBeNull();
  });
});
