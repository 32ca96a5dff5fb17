import 'reflect-metadata';
import { randomBytes, webcrypto } from 'node:crypto';
import { chmod, link, mkdir, open, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { DAY } from '@linewright/care';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import { PRIVATE_RANGES } from './home-addresses.js';

/** The one who vouches: its key signs certificates for this machine and stays in the data folder. */
export interface HouseAuthority {
  readonly certificate: x509.X509Certificate;
  readonly key: webcrypto.CryptoKey;
}

/** What a server shows: PEM texts, the chain with the authority's certificate behind its own. */
export interface ServerCertificate {
  readonly key: string;
  readonly chain: string;
  readonly until: Date;
}

const FOLDER = 'certificate';
const FILE = 'house-authority.pem';
const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const;
const SIGNED = { ...CURVE, hash: 'SHA-256' } as const;
/** Clocks of phones may be behind. */
const EARLIER = DAY;
const AUTHORITY_DAYS = 3650;
/** Phones refuse more than 825 days of an authority that a person added (Apple, support page 103769). */
const SERVER_DAYS = 397;

x509.cryptoProvider.set(webcrypto as never);

const serial = (): string => `4${randomBytes(15).toString('hex').slice(1)}`;

const subtree = (name: ConstructorParameters<typeof GeneralName>[0]): GeneralSubtree =>
  new GeneralSubtree({ base: new GeneralName(name) });

/** RFC 5280, 4.2.1.10: names at home and private addresses; for a shop's or a bank's name its word counts for nothing. */
const onlyAtHome = (): x509.Extension => {
  const permittedSubtrees = new GeneralSubtrees([
    ...['local', 'localhost'].map((dNSName) => subtree({ dNSName })),
    ...[...PRIVATE_RANGES, '127.0.0.0/8'].map((iPAddress) => subtree({ iPAddress })),
  ]);
  const none = new GeneralSubtrees([subtree({ iPAddress: '::/0' })]);
  const value = new NameConstraints({ permittedSubtrees, excludedSubtrees: none });
  return new x509.Extension(id_ce_nameConstraints, true, AsnConvert.serialize(value));
};

const keyPem = async (key: webcrypto.CryptoKey): Promise<string> =>
  x509.PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY');

const makeAuthority = async (now: Date): Promise<string> => {
  const keys = await webcrypto.subtle.generateKey(CURVE, true, ['sign', 'verify']);
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: `CN=Linewright at home ${randomBytes(2).toString('hex')}`,
    notBefore: new Date(now.getTime() - EARLIER),
    notAfter: new Date(now.getTime() + AUTHORITY_DAYS * DAY),
    signingAlgorithm: SIGNED,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign, true),
      onlyAtHome(),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return `${await keyPem(keys.privateKey)}\n${certificate.toString('pem')}\n`;
};

const readAuthority = async (pem: string): Promise<HouseAuthority> => {
  const blocks = x509.PemConverter.decodeWithHeaders(pem);
  const of = (type: string): ArrayBuffer => {
    const found = blocks.find((block) => block.type === type);
    if (found === undefined) throw new Error(`There is no ${type} in ${FILE}.`);
    return found.rawData;
  };
  const key = await webcrypto.subtle.importKey('pkcs8', of('PRIVATE KEY'), CURVE, false, ['sign']);
  return { certificate: new x509.X509Certificate(of('CERTIFICATE')), key };
};

const read = (path: string): Promise<string | null> =>
  readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw error;
  });

/** Whole or not at all, for the owner of the folder alone; of two processes that make one, one's stays. */
const keep = async (folder: string, path: string, pem: string): Promise<void> => {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  await chmod(folder, 0o700);
  const draft = `${path}.${process.pid}-${randomBytes(4).toString('hex')}`;
  const file = await open(draft, 'wx', 0o600);
  try {
    await file.writeFile(pem);
    await file.sync();
    await link(draft, path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  } finally {
    await file.close();
    await rm(draft, { force: true });
  }
};

/**
 * The authority of this machine, made at its first use and kept in `DATA_DIR/certificate` with its key: never in a backup, an export or
 * the database. One that has come to its end is made again, and phones have to be taught it again.
 */
export const houseAuthority = async (dataDir: string, now: Date): Promise<HouseAuthority> => {
  const folder = join(dataDir, FOLDER);
  const path = join(folder, FILE);
  const kept = await read(path);
  const found = kept === null ? null : await readAuthority(kept);
  if (found !== null && found.certificate.notAfter > now) return found;
  if (found !== null) await rm(path, { force: true });
  await keep(folder, path, await makeAuthority(now));
  return readAuthority((await read(path))!);
};

/** A certificate for this machine under all its names and addresses, by a key of its own that stays in memory. */
export const serverCertificate = async (
  { certificate: issuer, key: signingKey }: HouseAuthority,
  { names, addresses }: { names: readonly string[]; addresses: readonly string[] },
  now: Date,
): Promise<ServerCertificate> => {
  const keys = await webcrypto.subtle.generateKey(CURVE, true, ['sign', 'verify']);
  const until = new Date(
    Math.min(now.getTime() + (SERVER_DAYS - 1) * DAY, issuer.notAfter.getTime()),
  );
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: `CN=${names[0] ?? 'localhost'}`,
    issuer: issuer.subject,
    notBefore: new Date(now.getTime() - EARLIER),
    notAfter: until,
    signingAlgorithm: SIGNED,
    publicKey: keys.publicKey,
    signingKey,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([
        ...['localhost', ...names].map((value) => ({ type: 'dns' as const, value })),
        ...['127.0.0.1', ...addresses].map((value) => ({ type: 'ip' as const, value })),
      ]),
      await x509.AuthorityKeyIdentifierExtension.create(issuer),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  const chain = `${certificate.toString('pem')}\n${issuer.toString('pem')}\n`;
  return { key: await keyPem(keys.privateKey), chain, until };
};

/** What phones show of it, so that two screens can be compared: SHA-256 of the certificate, in pairs. */
export const fingerprintOf = async ({ certificate }: HouseAuthority): Promise<string> =>
  Buffer.from(await certificate.getThumbprint('SHA-256'))
    .toString('hex')
    .toUpperCase()
    .replace(/(..)(?!$)/g, '$1 ');
