import { describe, expect, it } from 'vitest';
import type { Proposal, ProposalChange } from '../../api/rounds.js';
import { today } from '../../wording/figures.js';
import {
  daysWords,
  makeWords,
  needWords,
  priceWords,
  standingWords,
  WITHIN_ERROR,
  withoutWords,
} from './proposal-words.js';

const fish = (tag: string) => ({ id: tag, tag, sex: 'MALE', place: 'HERE', swimsWith: null });
const change = (lost: number, toldApart: boolean) =>
  ({ lost, toldApart, instead: [{ sire: fish('A'), dam: fish('B') }] }) as ProposalChange;

describe('a proposal in words', () => {
  it('says why a pair is there', () => {
    expect(needWords({ need: 'WORTH', place: 2 }, 40, true)).toContain('Number 2 of 40');
    expect(needWords({ need: 'KINSHIP', place: 2 }, 40, false)).not.toContain('worth');
  });

  it('says what is lost without a pair, and when that lies within its error', () => {
    expect(withoutWords(change(1.25, true), true)).toBe(
      'Without it all pairs together lose 1.25 points. The pairs would then be: A by B.',
    );
    expect(withoutWords(change(1.25, false), true)).toContain(WITHIN_ERROR);
    expect(withoutWords(change(0, false), true)).toBe(
      'Without it nothing is lost. The pairs would then be: A by B.',
    );
    expect(withoutWords(change(0, false), false)).toBe('Without it: A by B.');
  });

  it('says what wishes cost, and when that lies within its error', () => {
    const price = (lost: number, toldApart: boolean) =>
      priceWords({ price: change(lost, toldApart), hasAims: true, problem: null } as Proposal);
    expect(price(2, true)).toBe('This costs 2 points in all. 1 pair changed.');
    expect(price(2, false)).toBe(`This costs 2 points in all. 1 pair changed. ${WITHIN_ERROR}`);
    expect(price(0.001, false)).toBe('This costs next to nothing. 1 pair changed.');
  });

  it('says on which days the line makes pairs', () => {
    expect(daysWords({ day: today(), lastDay: null })).toBe('');
    expect(daysWords({ day: today(), lastDay: '2999-01-31' })).toBe('Pairs until 2999-01-31.');
    expect(daysWords({ day: '2999-01-01', lastDay: null })).toBe(
      'Pairs from 2999-01-01: fish are judged for the first of these days.',
    );
  });

  it('names what is made', () => {
    const made = (count: number, standing: object | null) =>
      makeWords({ pairs: Array.from({ length: count }), standing } as Proposal);
    expect(made(2, null)).toBe('Make these 2 pairs');
    expect(made(1, {})).toBe('Make this further pair');
  });

  it('says how many pairs are planned already', () => {
    expect(standingWords({ waitingCount: 2, spawnedCount: 1 })).toBe(
      '3 pairs are planned already: 2 wait for a spawn, 1 has spawned.',
    );
    expect(standingWords({ waitingCount: 1, spawnedCount: 0 })).toBe(
      '1 pair is planned already: 1 waits for a spawn.',
    );
  });
});
