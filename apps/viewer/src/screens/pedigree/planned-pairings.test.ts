import { describe, expect, it } from 'vitest';
import type { PedigreeFish } from '../../drawings/index.js';
import { withPlannedPairings } from './planned-pairings.js';

const drawn: PedigreeFish[] = [
  { id: 'm', tag: 'M', sex: 'male', sireId: null, damId: null },
  { id: 'f', tag: 'F', sex: 'female', sireId: null, damId: null },
];
const mate = (id: string, sex: 'MALE' | 'FEMALE') => ({ id, tag: id, sex, line: null });
const pairing = (id: string, sire: string, dam: string) => ({
  ...{ id, sire: mate(sire, 'MALE'), dam: mate(dam, 'FEMALE') },
  ...{ inbreedingCoefficient: 0.1, inbreedingBasis: 'AT_LEAST' as const },
});

describe('planned pairings in the pedigree of a fish', () => {
  it('are drawn where the fish is a parent, each mate once', () => {
    const { fish, planned } = withPlannedPairings('m', drawn, [
      ...[pairing('1', 'm', 'f'), pairing('2', 'm', 'x'), pairing('3', 'm', 'x')],
      pairing('4', 'other', 'f'),
    ]);
    expect(fish.map(({ id }) => id)).toEqual(['m', 'f', 'x']);
    expect(planned.map(({ id }) => id)).toEqual(['planned-1', 'planned-2', 'planned-3']);
    expect(planned[1]).toMatchObject({ damId: 'x', inbreeding: 0.1, basis: 'at-least' });
  });

  it('leave a fish without any as it is', () => {
    expect(withPlannedPairings('f', drawn, [])).toEqual({ fish: drawn, planned: [] });
  });
});
