import { describe, expect, it } from 'vitest';
import { makeKeys } from '../install-keys.js';
import { readPairingCode, writePairingCode } from './pairing-code.js';

const personId = '22222222-2222-4222-8222-222222222222';

describe('the code of an install', () => {
  it('is read as it was written, with the breaks that a mail puts in', async () => {
    const { signingKey, readingKey } = await makeKeys();
    const code = { signingKey, readingKey, personId, name: 'Runa · ルナ' };
    const written = writePairingCode(code);
    expect(readPairingCode(written)).toEqual(code);
    expect(readPairingCode(` ${written.slice(0, 40)}\n  ${written.slice(40)}\n`)).toEqual(code);
  });

  it('is refused when a letter of it is missing or it is something else', async () => {
    const { signingKey, readingKey } = await makeKeys();
    const written = writePairingCode({ signingKey, readingKey, personId, name: 'Runa' });
    for (const text of [
      ...['', 'linewright-1.', written.slice(0, -5), written.slice(1), 'x'.repeat(5_000)],
      `linewright-1.${Buffer.from('["a","b","c","d"]').toString('base64url')}`,
    ])
      expect(() => readPairingCode(text)).toThrow(/not a whole code/);
  });
});
