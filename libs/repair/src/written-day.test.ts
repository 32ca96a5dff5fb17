import { describe, expect, it } from 'vitest';
import { daysWritten, findDayOrder } from './written-day.js';

const days = (text: string) => daysWritten(text, null, 2026);

describe('a day as people write it', () => {
  it.each([
    ['2024-03-05', '2024-03-05'],
    ['2024-03-05 00:00:00', '2024-03-05'],
    ['2024-03-05T10:20Z', '2024-03-05'],
    ['2024/3/5', '2024-03-05'],
    ['2024.03.05.', '2024-03-05'],
    ['14 Mar 2024', '2024-03-14'],
    ['14-Mar-24', '2024-03-14'],
    ['14. März 2024', '2024-03-14'],
    ['March 14, 2024', '2024-03-14'],
    ['3rd of', null],
    ['14th October 2023', '2023-10-14'],
    ['14 de marzo de 2024', '2024-03-14'],
    ['1 juillet 2024', '2024-07-01'],
    ['1 juin 2024', '2024-06-01'],
    ['25/12/2024', '2024-12-25'],
    ['12/25/2024', '2024-12-25'],
    ['4.4.24', '2024-04-04'],
    ['4.4.27', '1927-04-04'],
    ['29.02.2024 12:00 PM', '2024-02-29'],
  ])('"%s" is %s', (text, day) => expect(days(text)).toEqual(day === null ? [] : [day]));

  it.each([
    '',
    '2024',
    'March 2024',
    '30/02/2024',
    '2024-13-01',
    '13/13/2024',
    '45000',
    'soon',
    '5/3',
    '1-2-3-2024',
  ])('"%s" is none', (text) => expect(days(text)).toEqual([]));

  it('has two meanings until the order is known', () => {
    expect(days('5/3/2024')).toEqual(['2024-03-05', '2024-05-03']);
    expect(daysWritten('5/3/2024', 'day-first', 2026)).toEqual(['2024-03-05']);
    expect(daysWritten('5/3/2024', 'month-first', 2026)).toEqual(['2024-05-03']);
    expect(daysWritten('25/12/2024', 'month-first', 2026)).toEqual([]);
  });

  it('reads a long line of digits and blanks in no time', () => {
    const before = performance.now();
    expect(days(`${'1 '.repeat(50_000)}2024`)).toEqual([]);
    expect(performance.now() - before).toBeLessThan(1_000);
  });
});

describe('the order of a column', () => {
  it('is proven by a day above 12 that none speaks against', () => {
    const found = findDayOrder(['5/3/2024', '', '2024-01-01', '25/12/2024', '4/4/2024'], 2026);
    expect(found).toEqual({
      open: 1,
      proven: 'day-first',
      proofs: [{ order: 'day-first', at: 3, text: '25/12/2024' }],
    });
    expect(findDayOrder(['12/25/2024'], 2026).proven).toBe('month-first');
  });

  it('is asked where nothing proves it, or both orders are proven', () => {
    expect(findDayOrder(['5/3/2024', '6/7/2024'], 2026)).toEqual({
      open: 2,
      proven: null,
      proofs: [],
    });
    const both = findDayOrder(['25/12/2024', '5/3/2024', '12/31/2024'], 2026);
    expect([both.open, both.proven, both.proofs.length]).toEqual([1, null, 2]);
  });
});
