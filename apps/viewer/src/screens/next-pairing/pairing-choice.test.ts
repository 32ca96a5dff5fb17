import { describe, expect, it } from 'vitest';
import {
  firstLines,
  largestFProblem,
  readChoice,
  toPairingInput,
  writeChoice,
  type PairingChoice,
} from './pairing-choice.js';

const full: PairingChoice = {
  view: 'LIST',
  lineIds: ['a', 'b'],
  pairs: 'WITHIN',
  largestF: '12.5',
  looks: ['bl:royal'],
  discouraged: false,
  partners: true,
  sort: 'INBREEDING',
  direction: 'DESC',
};

describe('choice of pairings', () => {
  it('comes back from the address as it went in', () => {
    expect(readChoice(new URLSearchParams(writeChoice(full)))).toEqual(full);
  });

  it('leaves the address bare while nothing is chosen', () => {
    expect(writeChoice(readChoice(new URLSearchParams()))).toEqual({});
  });

  it('keeps the view in the address, and opens the list for one that says how it is to be', () => {
    const proposal = readChoice(new URLSearchParams('line=a&view=proposal'));
    expect(proposal.view).toBe('PROPOSAL');
    expect(readChoice(new URLSearchParams(writeChoice(proposal)))).toEqual(proposal);
    expect(writeChoice({ ...proposal, lineIds: [], view: 'OUTCROSS' })).toEqual({
      view: 'outcross',
    });
    expect(readChoice(new URLSearchParams('f=1')).view).toBe('LIST');
    expect(readChoice(new URLSearchParams()).view).toBe('PROPOSAL');
  });

  it('begins with the line looked at last, else the one with most fish in use', () => {
    const line = (id: string, inUseCount: number) => ({ id, inUseCount });
    expect(firstLines([line('a', 3), line('b', 0)], 'b')).toEqual(['a']);
    expect(firstLines([line('a', 3), line('b', 2)], 'b')).toEqual(['b']);
    expect(firstLines([line('a', 2), line('b', 3)], 'gone')).toEqual(['b']);
    expect(firstLines([line('a', 2), line('b', 3), line('c', 3)], null)).toEqual(['b']);
    expect(firstLines([line('a', 0)], 'a')).toEqual([]);
    expect(firstLines([], null)).toEqual([]);
  });

  it('tells all lines from none named where one is begun with', () => {
    const begun = readChoice(new URLSearchParams(), ['a']);
    expect(begun.lineIds).toEqual(['a']);
    expect(writeChoice(begun, ['a'])).toEqual({});
    const all = writeChoice({ ...begun, lineIds: [] }, ['a']);
    expect(all).toEqual({ view: 'proposal', line: 'all' });
    expect(readChoice(new URLSearchParams(all), ['a']).lineIds).toEqual([]);
  });

  it('turns percent into the units of the API', () => {
    expect(toPairingInput(full)).toEqual({
      includeDiscouraged: false,
      linesOfPair: 'WITHIN',
      includePartners: true,
      lineIds: ['a', 'b'],
      maximumInbreeding: 0.125,
      wantClasses: ['bl:royal'],
    });
  });

  it('does not send a slip of typing', () => {
    const slip = { ...full, largestF: 'x' };
    expect(toPairingInput(slip)).not.toHaveProperty('maximumInbreeding');
    expect(largestFProblem('x')).toMatch(/percentage/);
    expect(largestFProblem('101')).toMatch(/percentage/);
    expect(largestFProblem('6,25')).toBeUndefined();
  });
});
