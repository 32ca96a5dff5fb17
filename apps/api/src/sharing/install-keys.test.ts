import { describe, expect, it } from 'vitest';
import {
  installIdOf,
  isSignedBy,
  keysFrom,
  makeKeys,
  signatureOf,
  wordsOf,
} from './install-keys.js';

describe('keys of an install', () => {
  it('are the same again from their secrets', async () => {
    const keys = await makeKeys();
    expect(await keysFrom(keys.signingSecret, keys.readingSecret)).toEqual(keys);
  });

  it('give it an id and words that both of them decide', async () => {
    const [a, b] = [await makeKeys(), await makeKeys()];
    const mixed = { signingKey: a.signingKey, readingKey: b.readingKey };
    expect(a.install).toMatch(/^[\da-f]{8}-[\da-f]{4}-8[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/);
    expect(new Set([a, b, mixed].map(installIdOf)).size).toBe(3);
    expect(new Set([a, b, mixed].map((keys) => wordsOf(keys).join(' '))).size).toBe(3);
    expect(wordsOf(a)).toHaveLength(6);
  });

  it('sign what nobody else can sign, and nothing else', async () => {
    const [a, b] = [await makeKeys(), await makeKeys()];
    const text = Buffer.from('a line');
    const signature = signatureOf(text, a);
    expect(isSignedBy(text, signature, a)).toBe(true);
    expect(isSignedBy(text, signature, b)).toBe(false);
    expect(isSignedBy(Buffer.from('a lime'), signature, a)).toBe(false);
    for (const none of ['', 'x', signature.slice(4)]) expect(isSignedBy(text, none, a)).toBe(false);
  });
});
