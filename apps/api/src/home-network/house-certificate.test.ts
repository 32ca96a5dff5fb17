import { X509Certificate } from 'node:crypto';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { DAY } from '@linewright/care';
import { machineClock } from '../clock/machine-clock.js';
import { afterAll, describe, expect, it } from 'vitest';

import {
  fingerprintOf,
  type HouseAuthority,
  houseAuthority,
  type ServerCertificate,
  serverCertificate,
} from './house-certificate.js';

const folder = mkdtempSync(join(tmpdir(), 'linewright-certificate-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** TLS goes by the clock of the machine, whatever day the run is on. */
const NOW = machineClock(0).now();
const HERE = { names: ['linewright.local', 'pond.local'], addresses: ['192.168.1.20', '10.0.0.7'] };
const authority = await houseAuthority(join(folder, 'first'), NOW);
const server = await serverCertificate(authority, HERE, NOW);

/** What TLS of this Node says to a server with this certificate under a name: null where it trusts it. */
const said = async (
  { key, chain }: ServerCertificate,
  by: HouseAuthority | null,
  servername: string,
): Promise<string | null> => {
  const listening = createServer({ key, cert: chain }).listen(0, '127.0.0.1');
  await new Promise((done) => listening.once('listening', done));
  const { port } = listening.address() as AddressInfo;
  try {
    return await new Promise((resolve) => {
      const ca = by === null ? {} : { ca: by.certificate.toString('pem') };
      const numbers = /^[\d.]+$/.test(servername);
      const socket = connect({
        ...{ host: '127.0.0.1', port, ...ca, rejectUnauthorized: true },
        ...(numbers ? {} : { servername }),
        checkServerIdentity: (_, shown) =>
          new X509Certificate(shown.raw)[numbers ? 'checkIP' : 'checkHost'](servername) ===
          undefined
            ? new Error('other name')
            : undefined,
      });
      socket.once('secureConnect', () => resolve(null));
      socket.once('error', (error: Error) => resolve(error.message));
      socket.once('secureConnect', () => socket.end());
    });
  } finally {
    listening.close();
    listening.closeAllConnections();
  }
};

describe('the certificate of this machine', () => {
  it.each(['linewright.local', 'pond.local', 'localhost', '192.168.1.20', '10.0.0.7', '127.0.0.1'])(
    'is trusted as %s by who was taught it',
    async (name) => {
      expect(await said(server, authority, name)).toBeNull();
    },
  );

  it('is trusted by nobody else', async () => {
    expect(await said(server, null, 'linewright.local')).toBe(
      'self-signed certificate in certificate chain',
    );
  });

  it.each(['other.local', '192.168.1.21'])('says nothing of %s', async (name) => {
    expect(await said(server, authority, name)).toBe('other name');
  });

  it.each([
    [{ names: ['bank.example'], addresses: [] }, 'bank.example'],
    [{ names: ['linewright.local'], addresses: ['8.8.8.8'] }, '8.8.8.8'],
    [{ names: ['notlocal'], addresses: [] }, 'notlocal'],
  ])('counts for nothing outside of the house: %j', async (names, name) => {
    const forged = await serverCertificate(authority, names, NOW);
    expect(await said(forged, authority, name)).toBe('permitted subtree violation');
  });

  it('holds from the day before for no more than phones accept', () => {
    const shown = new X509Certificate(server.chain);
    const days = (new Date(shown.validTo).getTime() - new Date(shown.validFrom).getTime()) / DAY;
    expect(days).toBe(397);
    expect(new Date(shown.validFrom).getTime()).toBeLessThan(NOW.getTime());
    expect(shown.checkIssued(new X509Certificate(authority.certificate.toString('pem')))).toBe(
      true,
    );
  });

  it('passes the strict check of OpenSSL, as a server’s certificate', () => {
    const [ca, leaf] = [join(folder, 'ca.pem'), join(folder, 'leaf.pem')];
    writeFileSync(ca, authority.certificate.toString('pem'));
    writeFileSync(leaf, server.chain);
    const check = (...more: string[]): string =>
      execFileSync('openssl', ['verify', '-x509_strict', '-CAfile', ca, ...more, leaf]).toString();
    expect(check('-purpose', 'sslserver', '-verify_hostname', 'linewright.local')).toContain('OK');
    expect(check('-verify_ip', '192.168.1.20')).toContain('OK');
    expect(() => check('-verify_hostname', 'bank.example')).toThrow(/hostname mismatch/i);
  });
});

describe('the authority of this machine', () => {
  it('is kept with its key for the owner of the folder alone', async () => {
    const [file] = readdirSync(join(folder, 'first', 'certificate'));
    expect(file).toBe('house-authority.pem');
    expect(statSync(join(folder, 'first', 'certificate')).mode & 0o777).toBe(0o700);
    expect(statSync(join(folder, 'first', 'certificate', file!)).mode & 0o777).toBe(0o600);
  });

  it('is the same at the next start, and one of two that are made at once', async () => {
    const again = await houseAuthority(join(folder, 'first'), NOW);
    expect(await fingerprintOf(again)).toBe(await fingerprintOf(authority));
    const both = await Promise.all([1, 2, 3].map(() => houseAuthority(join(folder, 'two'), NOW)));
    expect(new Set(await Promise.all(both.map(fingerprintOf))).size).toBe(1);
    expect(readdirSync(join(folder, 'two', 'certificate'))).toEqual(['house-authority.pem']);
  });

  it('is made again once it has come to its end, and no server’s certificate outlives it', async () => {
    const late = new Date(authority.certificate.notAfter.getTime() - 10 * DAY);
    const last = await serverCertificate(authority, HERE, late);
    expect(last.until).toEqual(authority.certificate.notAfter);
    const next = await houseAuthority(join(folder, 'first'), new Date(late.getTime() + 20 * DAY));
    expect(await fingerprintOf(next)).not.toBe(await fingerprintOf(authority));
  });

  it('shows its SHA-256 in pairs, as phones do', async () => {
    const shown = new X509Certificate(authority.certificate.toString('pem')).fingerprint256;
    expect(await fingerprintOf(authority)).toBe(shown.replaceAll(':', ' '));
  });
});
