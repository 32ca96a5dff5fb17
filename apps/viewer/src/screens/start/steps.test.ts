import { describe, expect, it } from 'vitest';
import type { FirstSteps } from '../../api/founders.js';
import { nextStep, stepsDone } from './steps.js';

const pageInfo = { hasNextPage: false };
const empty: FirstSteps = {
  lines: [],
  fishList: { edges: [], pageInfo },
  spawnList: { edges: [], pageInfo },
  pairings: [],
  scoreSheets: [],
};
const line = { lines: [{ id: 'l', code: 'T', name: 'Turquoise' }] };
const fish = { fishList: { edges: [{ node: { id: 'f' } }], pageInfo } };
const spawn = (sire: { id: string } | null) => ({
  spawnList: { edges: [{ node: { id: 's', tag: 'S', sire, dam: null } }], pageInfo },
});

describe('the first steps', () => {
  it('begin with a line, then founders, then a pair', () => {
    expect(nextStep(empty)).toBe('line');
    expect(nextStep({ ...empty, ...line })).toBe('founders');
    expect(nextStep({ ...empty, ...line, ...fish })).toBe('pair');
    expect(nextStep({ ...empty, ...line, ...fish, ...spawn({ id: 'f' }) })).toBeNull();
  });

  it('are done by a planned pair as by a spawn', () => {
    expect(nextStep({ ...empty, ...line, ...fish, pairings: [{ id: 'p' }] })).toBeNull();
  });

  it('take no brood of founders from a shop for a first spawn', () => {
    expect(stepsDone({ ...empty, ...spawn(null) }).pair).toBe(false);
  });
});
