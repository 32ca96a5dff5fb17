import { describe, expect, it } from 'vitest';
import { linksOf, pagesWith, searchesWith } from './found.js';

const places = [
  { to: '/today', label: 'Today', also: 'tasks' },
  { to: '/loci', label: 'Loci and carriers', also: 'genes' },
];

describe('what a search shows', () => {
  it('finds pages by their names and by other words for them, in any capitals', () => {
    expect(pagesWith(places, 'GENE')[0]?.links.map(({ to }) => to)).toEqual(['/loci']);
    expect(pagesWith(places, ' today ')[0]?.links).toHaveLength(1);
    expect(pagesWith(places, 'x')).toEqual([]);
  });

  it('finds saved searches by their names, and opens the list narrowed as they say', () => {
    const saved = [{ id: '1', name: 'Young males', filter: 'sex=MALE&younger=20' }];
    const [list] = searchesWith(saved, 'MALES');
    expect(list?.links).toMatchObject([{ to: '/fish?sex=MALE&younger=20', title: 'Young males' }]);
    expect(searchesWith(saved, 'females')).toEqual([]);
  });

  it('leads to the page of a record, and to the list where there are more', () => {
    const found = [{ id: 'jar-id', title: 'jar 1/2', beside: null, words: null }];
    const [place, fish] = linksOf(
      [
        { kind: 'PLACE', hasMore: false, found },
        { kind: 'FISH', hasMore: true, found: [{ ...found[0]!, id: 'f' }] },
      ],
      'jar 1&2',
    );
    expect(place).toMatchObject({ more: null, links: [{ to: '/vessels/jar-id' }] });
    expect(fish).toMatchObject({
      more: '/fish?use=all&text=jar%201%262',
      links: [{ to: '/fish/f' }],
    });
  });
});
