import { describe, expect, it } from 'vitest';
import { triesText, routeDoubts, routeName, stepTexts, timeText } from './route-words.js';

const fish = (...tags: string[]) => tags.map((tag) => ({ tag }));
const of = (tag: string) => ({ fish: { tag }, fromGeneration: null, fromBrood: null });
const best = (fromGeneration: number, fromBrood = 1) => ({ fish: null, fromGeneration, fromBrood });

describe('routes in words', () => {
  it('tell generations in months where the days of one are known', () => {
    expect(timeText(3, 154)).toBe('3 generations, about 15 months');
    expect(timeText(1, null)).toBe('1 generation');
  });

  it('name the fish and the way', () => {
    const broods = [{ generation: 1, sire: of('A'), dam: of('B') }, { generation: 2, sire: best(1), dam: best(1) }]; // prettier-ignore
    const route = { scheme: 'SIBLINGS', fish: fish('A', 'B'), broods };
    expect(routeName(route)).toBe('A × B, then brother × sister');
    expect(stepTexts(route)).toEqual([
      'A × B',
      'the best male of generation 1 × the best female of generation 1',
    ]);
  });

  it('tell sub-lines apart by how long they are held', () => {
    const broods = [
      { generation: 1, sire: of('A'), dam: of('B') }, { generation: 1, sire: of('C'), dam: of('D') },
      { generation: 2, sire: best(1, 1), dam: best(1, 2) },
    ]; // prettier-ignore
    const route = { scheme: 'TWO_SUB_LINES', fish: fish('A', 'B', 'C', 'D'), broods };
    expect(routeName(route)).toBe('A × B and C × D apart, then crossed after 1 generation');
    expect(stepTexts(route).at(-1)).toBe(
      'the best male of generation 1, brood 1 × the best female of generation 1, brood 2',
    );
  });

  it('say plainly that a few tries prove nothing', () => {
    expect([0, 0.0004, 0.004, 0.42, 0.9996, 1].map((chance) => triesText(chance, 2_000))).toEqual([
      'not once in 2,000 tries', 'under 0.1 %', '0.4 %', '42 %', 'over 99.9 %', 'in all 2,000 tries',
    ]); // prettier-ignore
  });

  it('say why not to rely on a route, and nothing about one that often gets there', () => {
    const doubts = (chance: number, endedByCeiling: number) =>
      routeDoubts({ chance, simulations: 2_000, endedByCeiling });
    expect(doubts(0.42, 0.05)).toEqual([]);
    expect(doubts(0, 0)).toEqual([
      'In its simulations this route never reached its target: not once in 2,000 tries.',
    ]);
    expect(doubts(0.0004, 1)).toEqual([
      'In its simulations this route seldom reached its target: under 0.1 %.',
      '100 % of its simulations ended early, because the young of every pair would have had an F above the ceiling.',
    ]);
    expect(doubts(0.04, 0.96)).toEqual([
      'In its simulations this route seldom reached its target: 4 %.',
      '96 % of its simulations ended early, because the young of every pair would have had an F above the ceiling.',
    ]);
  });
});
