import { describe, expect, it } from 'vitest';
import { passkeysHere, refusalWords, type PasskeyBrowser } from './passkeys.js';

const at = (hostname: string, more: Partial<PasskeyBrowser> = {}) =>
  passkeysHere({
    isSecureContext: true,
    location: { hostname, port: '4000' },
    PublicKeyCredential: {},
    ...more,
  });

describe('passkeys', () => {
  it.each(['localhost', 'fish.example'])('are possible at %s', (hostname) => {
    expect(at(hostname)).toEqual({ possible: true, why: null });
  });

  it.each([
    ['127.0.0.1', 'open http://localhost:4000 in place'],
    ['[::1]', 'open http://localhost:4000 in place'],
    ['192.168.1.7', 'this one has no name'],
  ])('need a name, which %s is not', (hostname, words) => {
    expect(at(hostname).why).toContain(words);
  });

  it('need a secure connection and a browser that has them', () => {
    expect(at('fish.example', { isSecureContext: false }).why).toContain('https');
    const { PublicKeyCredential: _, ...without } = {
      PublicKeyCredential: 1,
      isSecureContext: true,
    };
    expect(
      passkeysHere({ ...without, location: { hostname: 'localhost', port: '' } }).why,
    ).toContain('This browser has no passkeys');
  });

  it('that a device refuses are told in words', () => {
    const named = (name: string) => Object.assign(new Error('x'), { name });
    expect(refusalWords(named('InvalidStateError'))).toContain('already');
    expect(refusalWords(named('NotAllowedError'))).toContain('Try again');
    expect(refusalWords('odd')).toContain('gave no passkey');
  });
});
