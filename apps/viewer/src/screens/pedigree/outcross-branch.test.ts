import { describe, expect, it } from 'vitest';
import { layoutPedigree, withPlannedBrood, type SliceFish } from '@linewright/pedigree-layout';
import type { PedigreeSlice } from '../../api/fish.js';
import { branchOf, describedFish, joinedFish } from './outcross-branch.js';

const fish = (id: string, sireId: string | null = null): PedigreeSlice['fish'][number] => ({
  ...{ id, tag: id.toUpperCase(), sex: 'MALE', sireId, damId: null, spawnId: null, spawnTag: null },
  ...{
    hatchDate: null,
    unknownParentOf: null,
    recordShown: true,
    lineCode: null,
    disposition: 'KEEPER',
  },
  ...{ inbreedingCoefficient: 0, inbreedingBasis: 'KNOWN' },
});
const slice = (...list: PedigreeSlice['fish']): PedigreeSlice => ({
  focusId: list[0]!.id,
  truncated: false,
  fish: list,
});
const named = (id: string, sex: 'MALE' | 'FEMALE') => ({ id, tag: id, sex, lineCode: null });
const generation = (n: number, inbreeding: number) => ({
  ...{ generation: n, inbreeding, lineShare: 0, traits: [], alleles: [] },
});
const outcross = {
  partner: named('x', 'FEMALE'),
  mate: named('m', 'MALE'),
  back: named('b', 'FEMALE'),
  basis: 'AT_LEAST' as const,
  backcrosses: {
    generations: [generation(1, 0), generation(2, 0.2), generation(3, 0.3)],
    ...{ traits: [], alleles: [] },
  },
};

describe('the branch of an outcross in a pedigree', () => {
  it('begins with partner and mate, and goes on with the fish gone back to', () => {
    const branch = branchOf(outcross);
    expect(branch.map(({ sireId, damId }) => [sireId, damId])).toEqual([
      ['m', 'x'],
      ['outcross-1', 'b'],
      ['outcross-2', 'b'],
    ]);
    expect(branch[1]).toMatchObject({ label: '1st backcross', inbreeding: 0.2, basis: 'at-least' });
    expect(branchOf({ ...outcross, backcrosses: null })).toEqual([]);
  });

  it('has a place for a partner that is not on record', () => {
    expect(branchOf({ ...outcross, partner: null })[0]).toMatchObject({ damId: 'described' });
    expect(describedFish('MALE')).toMatchObject({ id: 'described', sex: 'female' });
    expect(describedFish('FEMALE').sex).toBe('male');
  });

  it('is laid out below the fish it comes from, all of it planned', () => {
    const actual = ['x', 'm', 'b'].map((id): SliceFish => ({
      id,
      tag: id,
      sex: 'unknown',
      sireId: null,
      damId: null,
    }));
    const all = branchOf(outcross).reduce<readonly SliceFish[]>(withPlannedBrood, actual);
    const scene = layoutPedigree(all, { focusId: 'm', scope: 'all' });
    const layer = (id: string): number => scene.nodes.find((one) => one.id === id)!.layer;
    expect([1, 2, 3].map((n) => layer(`outcross-${n}`))).toEqual([1, 2, 3]);
    expect(scene.matings.map(({ planned }) => planned)).toEqual([true, true, true]);
  });

  it('joins the ancestors of several fish, each once', () => {
    const joined = joinedFish([slice(fish('a'), fish('c', 'a')), slice(fish('d'), fish('a', 'd'))]);
    expect(joined.map(({ id, sireId }) => [id, sireId])).toEqual([
      ['a', 'd'],
      ['c', 'a'],
      ['d', null],
    ]);
  });
});
