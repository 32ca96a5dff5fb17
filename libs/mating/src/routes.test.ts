import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { projectRoute, type RouteScheme } from './routes.js';

const pedigree = buildPedigree([
  { id: 'A' }, { id: 'B' }, { id: 'C' },
  { id: 'X', sire: 'A', dam: 'B' }, { id: 'Y', sire: 'A', dam: 'B' }, { id: 'Z', sire: 'X', dam: 'Y' },
]); // prettier-ignore
const means = (sireId: string, damId: string, scheme: RouteScheme, generations = 3): number[] =>
  projectRoute({ pedigree, sireId, damId, scheme, generations }).map(
    ({ meanInbreeding }) => meanInbreeding,
  );

describe('projectRoute', () => {
  it('starts from the ancestry the pair has', () => {
    expect(means('X', 'Y', { kind: 'full-siblings' })).toEqual([0.25, 0.375, 0.5]);
    expect(means('A', 'C', { kind: 'full-siblings' })).toEqual([0, 0.25, 0.375]);
  });

  it('backcrosses to one parent and counts its own inbreeding', () => {
    expect(means('A', 'C', { kind: 'backcross', parentId: 'A' }, 4)).toEqual([
      0, 0.25, 0.375, 0.4375,
    ]);
    // F(2) = (1 + F_Z) / 4 with F_Z = 1/4.
    expect(means('Z', 'C', { kind: 'backcross', parentId: 'Z' }, 2)).toEqual([0, 0.3125]);
  });

  it('ends when the dams of a half-sibling route run out', () => {
    const steps = projectRoute({
      pedigree,
      sireId: 'A',
      damId: 'B',
      scheme: { kind: 'half-siblings', otherDamIds: ['C'] },
      generations: 5,
    });
    expect(
      steps.map(({ generation, meanInbreeding, broods }) => [generation, meanInbreeding, broods]),
    ).toEqual([
      [1, 0, 2],
      [2, 0.125, 1],
    ]);
  });

  it.each<[string, RouteScheme, number]>([
    ['MATING_BAD_SETTING', { kind: 'full-siblings' }, 0],
    ['MATING_BAD_SETTING', { kind: 'backcross', parentId: 'C' }, 2],
    ['MATING_UNKNOWN_FISH', { kind: 'backcross', parentId: 'nobody' }, 2],
    ['MATING_BAD_SETTING', { kind: 'half-siblings', otherDamIds: ['B'] }, 2],
  ])('refuses with %s: %j over %i', (code, scheme, generations) => {
    expect(() => projectRoute({ pedigree, sireId: 'A', damId: 'B', scheme, generations })).toThrow(
      expect.objectContaining({ code }) as Error,
    );
  });
});
