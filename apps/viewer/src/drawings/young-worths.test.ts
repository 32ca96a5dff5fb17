import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { worthDomain, YoungWorths, type YoungWorthGroup } from './charts/young-worths.js';

const young = (id: string, worth: number, note: string | null = null) => ({
  ...{ id, tag: `T-${id}`, worth, note },
  bands: [{ percent: 80, low: worth - 1, high: worth + 1 }],
});
const groups: YoungWorthGroup[] = [
  { name: 'Males', keep: 1, young: [young('a', 3, 'keep'), young('b', 1)] },
  { name: 'Females', keep: 2, young: [young('c', -2)] },
];
const drawn = (more: object = {}): string =>
  renderToStaticMarkup(
    createElement(YoungWorths, {
      ...{ title: 'Worth', groups, sameFigures: 'The table has them.', ...more },
    }),
  );

describe('the young of a brood by worth', () => {
  it('take in all bands; alike ones get some room', () => {
    expect(worthDomain(groups)).toEqual([-3, 4]);
    const alike = { ...young('a', 2), bands: [] };
    expect(worthDomain([{ name: 'Males', keep: 1, young: [alike] }])).toEqual([1, 3]);
  });

  it('draw a line only where young are left over beyond the number to keep', () => {
    const cuts = (html: string) => html.match(/class="[^"]*cut[^"]*"/gu)?.length ?? 0;
    expect(cuts(drawn())).toBe(1);
    expect(cuts(drawn({ groups: [{ ...groups[0]!, keep: 2 }] }))).toBe(0);
  });

  it('mark the fish in hand by a sign, and say what speaks for one', () => {
    expect(drawn({ fishId: 'b' })).toContain('► T-b');
    expect(drawn()).not.toContain('►');
    expect(drawn()).toContain('T-a · keep');
  });

  it('leave out a sex of which there is none', () => {
    expect(drawn({ groups: [groups[0]!, { ...groups[1]!, young: [] }] })).not.toContain('Females');
  });
});
