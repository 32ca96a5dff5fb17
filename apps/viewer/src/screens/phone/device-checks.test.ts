import { describe, expect, it } from 'vitest';
import { deviceChecks, type DeviceFacts } from './device-checks.js';

const good: DeviceFacts = {
  ...{ address: 'https://linewright.local:4743', secure: true, onMachine: false, answers: true },
  ...{ pages: 'kept', stores: true, lasting: true },
};
const told = (more: Partial<DeviceFacts>): Record<string, boolean | null> =>
  Object.fromEntries(deviceChecks({ ...good, ...more }).map((check) => [check.key, check.good]));
const wordsOf = (key: string, more: Partial<DeviceFacts>): string =>
  deviceChecks({ ...good, ...more }).find((check) => check.key === key)?.words ?? '';

describe('what works on this device', () => {
  it('is everything over a trusted connection', () => {
    const all = { machine: true, secure: true, pages: true, stores: true, lasting: true };
    expect(told({})).toEqual(all);
  });

  it('is neither pages nor secrecy over plain HTTP, and it says which address that was', () => {
    const plain = {
      secure: false,
      pages: 'insecure',
      address: 'http://192.168.1.20:4700',
    } as const;
    expect(told(plain)).toMatchObject({ machine: true, secure: false, pages: false, stores: true });
    expect(wordsOf('secure', plain)).toContain('http://192.168.1.20:4700');
    expect(wordsOf('secure', plain)).toContain('https');
    expect(wordsOf('pages', plain)).not.toContain('without a connection');
  });

  it('names a certificate that is not trusted', () => {
    expect(told({ pages: 'refused' })).toMatchObject({ secure: true, pages: false });
    expect(wordsOf('pages', { pages: 'refused' })).toContain('certificate');
    // On the machine itself there is none in between.
    const local = { pages: 'refused', address: 'http://127.0.0.1:4700' } as const;
    expect(wordsOf('pages', local)).not.toContain('certificate');
  });

  it('names the network where the machine does not answer', () => {
    expect(told({ answers: false })['machine']).toBe(false);
    expect(wordsOf('machine', { answers: false })).toContain('same network');
  });

  it('asks nothing of the store where there is none', () => {
    expect(told({ stores: false })).not.toHaveProperty('lasting');
    expect(told({ stores: false })['stores']).toBe(false);
    expect(told({ lasting: null })['lasting']).toBe(false);
  });

  it('waits where it does not know yet', () => {
    expect(told({ answers: null, pages: 'coming', stores: null })).toMatchObject({
      ...{ machine: null, pages: null, stores: null },
    });
  });
});
