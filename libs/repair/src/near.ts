import { looseSpelling } from '@linewright/pedigree';

/** Letters that are taken for digits when a tag is copied by hand. */
const confused: Readonly<Record<string, string>> = { o: '0', i: '1', l: '1' };

/** What stays of a tag when signs between letters, zeros in front of a number, and o for 0, i or l for 1 make no difference. */
const skeleton = (text: string): string =>
  looseSpelling(text)
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .replace(/[oil]/g, (letter) => confused[letter]!)
    .replace(/(?<!\d)0+(?=\d)/g, '')
    .replace(/(?<=\d) (?=\d)/g, '-')
    .replaceAll(' ', '');

/** Numbers tell fish apart, so they have to agree; letters may differ a little. */
const parts = (text: string): { numbers: string; letters: string } => {
  const loose = looseSpelling(text);
  return {
    numbers: [...loose.matchAll(/\d+/g)].map(([run]) => Number(run)).join('-'),
    letters: loose.replace(/[^\p{L}]+/gu, ''),
  };
};

/**
 * Whether two words are `most` or fewer changes apart: a letter put in, left out or changed, or two neighbours changed over (optimal
 * string alignment). Cost: product of the lengths.
 */
const within = (a: string, b: string, most: number): boolean => {
  if (Math.abs(a.length - b.length) > most) return false;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, k) => k);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, before[j - 2]! + 1);
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length]! <= most;
};

/** Words compared letter by letter for one text at most: beyond it too many look alike. */
const MOST_COMPARED = 300;
const LONGEST = 60;
const SHORTEST = 3;
const LONG = 8;

/**
 * Finds what a tag or code that nobody knows was most likely meant to be: known ones that differ in signs, in zeros before a number or
 * in o for 0 and l for 1; then those with the same numbers whose letters differ by one slip, or by two in eight letters. R-12 is
 * never offered for R-13.
 *
 * @returns a function of the text that gives up to three known ones, the nearest first; never the text itself
 * @example nearest(['R-01', 'R-02'])('R-O1') // ['R-01']
 */
export const nearest = (known: Iterable<string>): ((text: string) => string[]) => {
  const bySkeleton = new Map<string, string[]>();
  const byNumbers = new Map<string, { letters: string; text: string }[]>();
  const put = <Value>(map: Map<string, Value[]>, key: string, value: Value): void => {
    const list = map.get(key);
    if (list === undefined) map.set(key, [value]);
    else list.push(value);
  };
  for (const text of known) {
    if (text === '' || text.length > LONGEST) continue;
    put(bySkeleton, skeleton(text), text);
    const { numbers, letters } = parts(text);
    put(byNumbers, numbers, { letters, text });
  }
  return (text) => {
    if (text === '' || text.length > LONGEST) return [];
    const key = skeleton(text);
    const alike = key === '' ? [] : (bySkeleton.get(key) ?? []);
    const { numbers, letters } = parts(text);
    const bucket = letters.length < SHORTEST ? [] : (byNumbers.get(numbers) ?? []);
    const most = letters.length >= LONG ? 2 : 1;
    const slips =
      bucket.length > MOST_COMPARED
        ? []
        : bucket.filter((one) => within(letters, one.letters, most)).map((one) => one.text);
    return [...new Set([...alike, ...slips])].filter((one) => one !== text).slice(0, 3);
  };
};
