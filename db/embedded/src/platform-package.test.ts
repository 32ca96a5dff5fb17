import { lstatSync, mkdirSync, mkdtempSync, readlinkSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { makeLinks } from './binaries.js';
import { EmbeddedDatabaseError, fileError } from './errors.js';
import { findPlatformPackage } from './platform-package.js';

const root = mkdtempSync(join(tmpdir(), 'linewright-package-'));
afterAll(() => {
  rmSync(root, { recursive: true, force: true });
});

describe('the package of binaries', () => {
  it('is found for this system, with its major version', () => {
    const found = findPlatformPackage();
    expect(found.major).toBe(18);
    expect(found.version).toMatch(/^18\./);
  });

  it('is missed with a word on what to do instead', () => {
    expect(() => findPlatformPackage('sunos', 'mips')).toThrow(
      expect.objectContaining({
        code: 'EMBEDDED_PLATFORM_UNSUPPORTED',
        message: expect.stringMatching(/sunos-mips.*DATABASE_URL/s) as string,
      }),
    );
  });

  it('gets its listed links made, once and relative', () => {
    const folder = join(root, 'package');
    mkdirSync(join(folder, 'native', 'lib'), { recursive: true });
    writeFileSync(join(folder, 'native', 'lib', 'libx.so.5.18'), '');
    writeFileSync(
      join(folder, 'native', 'pg-symlinks.json'),
      JSON.stringify([{ source: 'native/lib/libx.so.5.18', target: 'native/lib/libx.so.5' }]),
    );
    expect(makeLinks(folder)).toBe(true);
    expect(makeLinks(folder)).toBe(true);
    const link = join(folder, 'native', 'lib', 'libx.so.5');
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(readlinkSync(link)).toBe('libx.so.5.18');
  });

  it('needs no list of links', () => {
    expect(makeLinks(join(root, 'none'))).toBe(true);
  });
});

describe('errors of the file system', () => {
  it('are sorted into full and not writable, and otherwise left as they are', () => {
    const of = (code: string) => fileError(Object.assign(new Error(code), { code }), '/data');
    expect(of('ENOSPC')).toMatchObject({ code: 'EMBEDDED_DISK_FULL' });
    expect(of('EDQUOT')).toMatchObject({ code: 'EMBEDDED_DISK_FULL' });
    for (const code of ['EACCES', 'EPERM', 'EROFS', 'ENOTDIR']) {
      expect(of(code)).toMatchObject({ code: 'EMBEDDED_DATA_DIR_NOT_WRITABLE' });
    }
    expect(of('EMFILE')).not.toBeInstanceOf(EmbeddedDatabaseError);
  });
});
