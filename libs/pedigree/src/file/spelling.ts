/**
 * What a tag or code is compared by where capitals and blanks must not make two of one: small letters, no blanks, letters
 * with marks in one piece (Unicode NFKC).
 */
export function looseSpelling(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\s\u200B\uFEFF]+/g, '');
}
