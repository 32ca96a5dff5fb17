import { describe, expect, it } from 'vitest';
import { isAllowedHost, isForThisMachineOnly, isFromThisMachine, isLoopback } from './reach.js';

const here = { peer: '127.0.0.1', host: '127.0.0.1:4700', origin: undefined, forwarded: false };

describe('from this machine only', () => {
  it.each([
    ['a program on it', {}, false, true],
    ['its browser', { origin: 'http://127.0.0.1:4700' }, false, true],
    [
      'its browser by name',
      { host: 'localhost:4700', origin: 'http://localhost:4700' },
      false,
      true,
    ],
    ['over IPv6', { peer: '::1', host: '[::1]:4700', origin: 'http://[::1]:4700' }, false, true],
    ['over IPv4 in IPv6', { peer: '::ffff:127.0.0.1' }, false, true],
    ['another machine', { peer: '192.168.1.7' }, false, false],
    ['another machine, naming this one', { peer: '192.168.1.7', host: 'localhost' }, false, false],
    ['a name turned to it', { host: 'evil.example:4700' }, false, false],
    ['a name that begins like it', { host: '127.0.0.1.evil.example' }, false, false],
    ['a page of another site', { origin: 'https://evil.example' }, false, false],
    ['a page without an address', { origin: 'null' }, false, false],
    ['passed on by a proxy', { forwarded: true }, false, false],
    ['a proxy on it that says nothing', {}, true, false],
    ['a proxy that says so', { forwarded: true }, true, false],
    ['no Host', { host: undefined }, false, false],
    ['a Host that is none', { host: 'localhost@evil.example' }, false, false],
    ['nobody', { peer: undefined }, false, false],
  ])('%s', (_, reached, trustProxy, expected) => {
    expect(isFromThisMachine({ ...here, ...reached }, { trustProxy })).toBe(expected);
  });
});

describe('an install for this machine only', () => {
  it.each([
    ['127.0.0.1', false, true],
    ['::1', false, true],
    ['0.0.0.0', false, false],
    ['192.168.1.20', false, false],
    ['127.0.0.1', true, false],
    ['0.0.0.0', true, false],
  ])('listening on %s, behind a proxy: %s', (host, trustProxy, expected) => {
    expect(isForThisMachineOnly({ host, trustProxy })).toBe(expected);
  });
});

describe('hosts that are answered', () => {
  const lan = { host: '0.0.0.0', publicAddress: 'https://fish.example' };
  it.each([
    ['localhost:4700', lan, true],
    ['127.0.0.1:4700', lan, true],
    ['[::1]:4700', lan, true],
    ['192.168.1.20:4700', lan, true],
    ['fish.example', lan, true],
    ['FISH.example:443', lan, true],
    ['evil.example', lan, false],
    ['fish.example.evil.example', lan, false],
    ['localhost.evil.example', lan, false],
    ['pond.lan:4700', { host: 'pond.lan', publicAddress: undefined }, true],
    ['pond.lan:4700', { host: '0.0.0.0', publicAddress: undefined }, false],
    ['fish.example', { host: '127.0.0.1', publicAddress: undefined }, false],
    [undefined, lan, false],
    ['', lan, false],
    ['fish.example/../x', lan, false],
  ])('%s', (header, settings, expected) => {
    expect(isAllowedHost(header, settings)).toBe(expected);
  });
});

describe('addresses that mean this machine', () => {
  it.each([
    ['localhost', true],
    ['127.9.9.9', true],
    ['::1', true],
    ['0.0.0.0', false],
    ['127.0.0.1.example', false],
    ['10.0.0.1', false],
  ])('%s', (host, expected) => {
    expect(isLoopback(host)).toBe(expected);
  });
});
