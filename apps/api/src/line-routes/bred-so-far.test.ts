import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { bredSoFar } from './bred-so-far.js';

const pedigree = buildPedigree([
  { id: 'A' }, { id: 'B' }, { id: 'C' },
  { id: 'x', sire: 'A', dam: 'B' }, { id: 'y', sire: 'A', dam: 'C' }, { id: 'half', dam: 'B' },
  { id: 'v', sire: 'x', dam: 'y' }, { id: 'w', sire: 'x', dam: 'y' }, { id: 'u', sire: 'x', dam: 'half' },
]); // prettier-ignore
const of = (...ids: string[]) =>
  bredSoFar(
    pedigree,
    ids.map((id) => pedigree.indexOf(id)),
  );

describe('how a line was bred so far', () => {
  it('counts sires, dams and pairs of the youngest generation', () => {
    expect(of('A', 'B', 'x', 'y', 'v', 'w', 'u')).toEqual({ sires: 1, dams: 2, broods: 2 });
    expect(of('A', 'x', 'y')).toEqual({ sires: 1, dams: 2, broods: 2 });
  });

  it('says nothing where no fish has both parents on record', () => {
    expect(of('A', 'half')).toBeNull();
    expect(of()).toBeNull();
  });
});
