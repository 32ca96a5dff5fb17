/** F and coancestry as on the pages, in percent, to one place: a drawing has less room than a table. */
export function coefficient(value: number): string {
  if (value === 0) return '0 %';
  return value < 0.0005 ? '<0.1 %' : `${(100 * value).toFixed(1)} %`;
}

/** F with its mark: `≥` where fish of unknown origin are behind it, words where a parent itself is not known. */
export function markedF(value: number, basis: 'known' | 'at-least' | 'unknown' = 'known'): string {
  if (basis === 'unknown') return 'F not known';
  return `F ${basis === 'at-least' ? '≥ ' : ''}${coefficient(value)}`;
}

export function percent(share: number): string {
  return `${(100 * share).toFixed(share > 0 && share < 0.1 ? 1 : 0)} %`;
}

/** An expected count: whole when whole, else one place. */
export function expectedCount(value: number): string {
  return Number.isInteger(value) ? String(value) : value.toFixed(1);
}

export function sexName(sex: 'male' | 'female' | 'unknown'): string {
  return sex === 'unknown' ? 'sex unknown' : sex;
}

const NUMERALS: readonly (readonly [number, string])[] = [
  [1000, 'M'],
  [900, 'CM'],
  [500, 'D'],
  [400, 'CD'],
  [100, 'C'],
  [90, 'XC'],
  [50, 'L'],
  [40, 'XL'],
  [10, 'X'],
  [9, 'IX'],
  [5, 'V'],
  [4, 'IV'],
  [1, 'I'],
];

/** Generations of a pedigree are numbered in Roman numerals, the oldest I. */
export function roman(value: number): string {
  let rest = value;
  let text = '';
  for (const [size, numeral] of NUMERALS) {
    while (rest >= size) {
      text += numeral;
      rest -= size;
    }
  }
  return text;
}

export function shorten(text: string, length: number): string {
  return text.length <= length ? text : `${text.slice(0, length - 1)}…`;
}

/** A name in lines of so many letters at most, broken between words. */
export function linesOf(name: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim();
    if (lines.length > 0 && longer.length <= letters) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
