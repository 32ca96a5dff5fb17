import { describe, expect, it } from 'vitest';
import { traceHighlight } from './highlight.js';
import { layoutPedigree } from './layout-pedigree.js';
import { navigate } from './navigation.js';
import { matingIdOf, offspringLinkId, parentLinkId } from './scene.js';
import type { SliceFish } from './slice.js';

const fish = (
  id: string,
  sireId: string | null = null,
  damId: string | null = null,
): SliceFish => ({
  id,
  tag: id,
  sex: 'unknown',
  sireId,
  damId,
});
const slice = [fish('a'), fish('b'), fish('c', 'a', 'b'), fish('d', 'a', 'b'), fish('e', 'c', 'd')];
const scene = layoutPedigree(slice, { focusId: 'e' });

describe('traceHighlight', () => {
  it('walks up to the common ancestor, down to the dam and closes the loop at the brood', () => {
    const found = traceHighlight(scene, ['c', 'a', 'd'], 'e');
    const first = matingIdOf('a', 'b');
    const second = matingIdOf('c', 'd');
    expect(found.ancestorId).toBe('a');
    expect(found.steps.map((step) => step.direction)).toEqual(['up', 'down']);
    expect(found.linkIds).toEqual([
      offspringLinkId(first, 'c'),
      parentLinkId(first, 'a'),
      parentLinkId(first, 'a'),
      offspringLinkId(first, 'd'),
      parentLinkId(second, 'c'),
      parentLinkId(second, 'd'),
      offspringLinkId(second, 'e'),
    ]);
    expect(found.missing).toEqual([]);
  });

  it('takes the dam as common ancestor when she is the sire’s parent', () => {
    expect(traceHighlight(scene, ['c', 'a']).ancestorId).toBe('a');
  });

  it('names what it cannot show', () => {
    expect(traceHighlight(scene, ['c', 'gone', 'd']).missing).toEqual(['gone']);
    expect(traceHighlight(scene, ['a', 'e']).missing).toEqual(['a - e']);
  });
});

describe('navigate', () => {
  const steps = navigate(scene);

  it('knows a fish’s kin', () => {
    expect(steps.kinOf('c')).toEqual({
      sireId: 'a',
      damId: 'b',
      offspringIds: ['e'],
      mateIds: ['d'],
      sibIds: ['d'],
    });
  });

  it('moves to kin and along the row, and stays put at an end', () => {
    expect(steps.go('e', 'sire')).toBe('c');
    expect(steps.go('e', 'dam')).toBe('d');
    expect(steps.go('c', 'young')).toBe('e');
    expect(steps.go('c', 'mate')).toBe('d');
    expect(steps.go('a', 'sire')).toBeNull();
    expect(steps.go('e', 'after')).toBeNull();
    expect([steps.go('a', 'after'), steps.go('a', 'before')]).toContain('b');
  });
});
