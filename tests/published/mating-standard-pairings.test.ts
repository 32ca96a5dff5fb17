/**
 * F of the young of standard pairings, founders unrelated and not inbred.
 *
 * Source: the standard table of coefficients of consanguinity (human-genetics teaching notes); basis: read in the source.
 * The full-sibling, uncle by niece and first-cousin rows also in A Dictionary of Zoology, "coefficient of inbreeding";
 * basis: read in the source. Half siblings and grandparent by grandchild: computed from explicit pedigrees.
 * Values are exact fractions, so they are compared exactly.
 */
import { rankPairings, type PairingCandidate } from '@linewright/mating';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

type Row = readonly [id: string, sire?: string, dam?: string];

const parents: readonly Row[] = [['a'], ['u'], ['b', 'a', 'u']];
const siblings: readonly Row[] = [...parents, ['c', 'a', 'u']];
const cousins: readonly Row[] = [...siblings, ['v'], ['w'], ['d', 'b', 'v'], ['e', 'w', 'c']];

const cases: readonly (readonly [name: string, rows: readonly Row[], sire: string, dam: string, f: number])[] = [
  ['parent by young', parents, 'a', 'b', 1 / 4],
  ['full siblings', siblings, 'b', 'c', 1 / 4],
  ['half siblings', [...parents, ['x'], ['h', 'a', 'x']], 'b', 'h', 1 / 8],
  ['grandparent by grandchild', [...parents, ['v'], ['g', 'b', 'v']], 'a', 'g', 1 / 8],
  ['uncle by niece', [...siblings, ['w'], ['d', 'w', 'c']], 'b', 'd', 1 / 8],
  ['first cousins', cousins, 'd', 'e', 1 / 16],
  ['first cousins once removed', [...cousins, ['z'], ['g', 'z', 'e']], 'd', 'g', 1 / 32],
  ['second cousins', [...cousins, ['z'], ['g', 'z', 'e'], ['y'], ['h', 'd', 'y']], 'h', 'g', 1 / 64],
  [
    'double first cousins',
    [...siblings, ['p'], ['q'], ['r', 'p', 'q'], ['s', 'p', 'q'], ['d', 'b', 'r'], ['e', 's', 'c']],
    'd',
    'e',
    1 / 8,
  ],
  ['half first cousins', [...parents, ['x'], ['h', 'a', 'x'], ['v'], ['w'], ['d', 'b', 'v'], ['e', 'w', 'h']], 'd', 'e', 1 / 32],
  ['unrelated fish, whatever their own F', [...siblings, ['i', 'b', 'c'], ['n']], 'i', 'n', 0],
]; // prettier-ignore

describe('F of standard pairings', () => {
  it.each(cases)('%s', (_name, rows, sireId, damId, f) => {
    const pedigree = buildPedigree(
      rows.map(([id, sire, dam]) => ({ id, sire: sire ?? null, dam: dam ?? null })),
    );
    const candidates: PairingCandidate[] = [
      { id: sireId, sex: 'male' },
      { id: damId, sex: 'female' },
    ];
    const [row] = rankPairings({ pedigree, candidates, asOf: '2026-11-25' }).rows();
    expect(row?.inbreeding).toBe(f);
    expect(row?.commonAncestry.accountedFor).toBe(f);
  });
});
