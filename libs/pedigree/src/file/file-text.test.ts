import { describe, expect, it } from 'vitest';
import { fileText, hasBrokenLetters, lettersToCheck, type UnicodeDecoder } from './file-text.js';

const decode: UnicodeDecoder = (bytes, encoding) => new TextDecoder(encoding).decode(bytes);
const read = (...bytes: number[]) => fileText(Uint8Array.from(bytes), decode);
const utf16 = (text: string, mark: boolean, swapped: boolean): Uint8Array => {
  const bytes = Buffer.from((mark ? '\uFEFF' : '') + text, 'utf16le');
  return swapped ? bytes.swap16() : bytes;
};

describe('letters of a file', () => {
  const text = 'tag,sire\nMüller–1,ปลากัด\n';

  it.each([
    ['UTF-8', Buffer.from(text)],
    ['UTF-8', Buffer.from(`\uFEFF${text}`)],
    ['UTF-16LE', utf16(text, true, false)],
    ['UTF-16BE', utf16(text, true, true)],
    ['UTF-16LE', utf16(text, false, false)],
    ['UTF-16BE', utf16(text, false, true)],
  ])('are read from %s, with and without a mark', (encoding, bytes) => {
    expect(fileText(bytes, decode)).toEqual({ encoding, text });
  });

  // WHATWG Encoding standard, index windows-1252: the bytes that Latin-1 has no letters for, and some of both.
  it('are read from Windows-1252, and a byte that has no letter there is marked', () => {
    expect(read(0x4d, 0xfc, 0x80, 0x92, 0x96, 0x9f, 0xe9)).toEqual({
      encoding: 'Windows-1252',
      text: 'Mü€’–Ÿé',
    });
    expect(read(0x41, 0x81, 0x8d).text).toBe('A\uFFFD\uFFFD');
  });

  // RFC 3629: overlong forms, surrogates and what lies beyond U+10FFFF are no UTF-8; the last is cut off.
  it.each([
    [[0xc0, 0xaf]],
    [[0xe0, 0x9f, 0xbf]],
    [[0xed, 0xa0, 0x80]],
    [[0xf4, 0x90, 0x80, 0x80]],
    [[0x41, 0xc3]],
  ])('are not taken for UTF-8 where %j stands', (bytes) => {
    expect(read(...bytes).encoding).toBe('Windows-1252');
  });

  it('beyond ASCII are shown a few at a time, each once', () => {
    expect(lettersToCheck('tag;name\nA;Müller\nB;Müller\nC;"Ève"\nD;plain')).toEqual([
      'Müller',
      'Ève',
    ]);
    expect(lettersToCheck('é,è,ê,ë', 2)).toEqual(['é', 'è']);
  });

  it('are broken where one was lost or a control letter stands', () => {
    expect(['M\uFFFDller', 'M\u0081', 'a\0b'].map(hasBrokenLetters)).toEqual([true, true, true]);
    expect(['Müller', 'two\r\nlines\t'].map(hasBrokenLetters)).toEqual([false, false]);
  });
});
