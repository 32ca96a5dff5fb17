import { describe, expect, it } from 'vitest';
import { homeAddresses, homeNames, isAtHome } from './home-addresses.js';

const at = (address: string, more: object = {}) => ({
  ...{ address, family: 'IPv4' as const, internal: false, netmask: '', mac: '', cidr: null },
  ...more,
});

describe('where a phone finds this machine', () => {
  it('is a private IPv4 address of a network that a phone can be in, those of most homes first', () => {
    const interfaces = {
      lo: [at('127.0.0.1', { internal: true })],
      docker0: [at('172.17.0.1')],
      wlan0: [at('10.1.2.3')],
      eth0: [at('192.168.1.20'), at('8.8.4.4'), at('fd00::1', { family: 'IPv6', scopeid: 0 })],
    };
    expect(homeAddresses(interfaces as never)).toEqual(['192.168.1.20', '10.1.2.3']);
  });

  it('is nowhere without a network', () => {
    expect(homeAddresses({ lo: [at('127.0.0.1', { internal: true })] } as never)).toEqual([]);
  });
});

describe('who is at home', () => {
  it.each([
    ['192.168.1.7', true],
    ['::ffff:192.168.1.7', true],
    ['10.255.0.1', true],
    ['172.16.0.1', true],
    ['172.31.255.255', true],
    ['127.0.0.1', true],
    ['169.254.3.4', true],
    ['172.32.0.1', false],
    ['192.169.0.1', false],
    ['100.64.0.1', false],
    ['8.8.8.8', false],
    ['2001:db8::1', false],
    [undefined, false],
    ['', false],
  ])('%s: %s', (peer, expected) => {
    expect(isAtHome(peer)).toBe(expected);
  });
});

describe('names of this machine at home', () => {
  it.each([
    ['Fishroom', ['linewright.local', 'fishroom.local']],
    ['fishroom.local', ['linewright.local', 'fishroom.local']],
    ['fishroom.example.org', ['linewright.local', 'fishroom.local']],
    ['localhost', ['linewright.local']],
    ['linewright', ['linewright.local']],
    ['a name with spaces', ['linewright.local']],
    ['', ['linewright.local']],
  ])('of "%s"', (machine, expected) => {
    expect(homeNames(machine)).toEqual(expected);
  });
});
