import { Secret, TOTP } from 'otpauth';
import { describe, expect, it } from 'vitest';
import { stepOfCode } from './second-step.service.js';

/** RFC 6238, appendix B, the rows of SHA-1: seconds since 1970 and the code of eight digits; ours are its last six. */
const PUBLISHED: readonly (readonly [number, string])[] = [
  [59, '94287082'],
  [1_111_111_109, '07081804'],
  [1_111_111_111, '14050471'],
  [1_234_567_890, '89005924'],
  [2_000_000_000, '69279037'],
  [20_000_000_000, '65353130'],
];
const secret = Secret.fromLatin1('12345678901234567890').base32;
const at = (seconds: number): Date => new Date(seconds * 1000);

describe('codes of a second step', () => {
  it.each(PUBLISHED)('at %i seconds are those of the published table', (seconds, code) => {
    expect(stepOfCode(secret, code.slice(2), at(seconds))).toBe(Math.floor(seconds / 30));
  });

  it('are taken one step early and one step late, not two', () => {
    const code = new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: 3_000_000 });
    const taken = [-60, -30, 0, 30, 59, 60].map((off) => stepOfCode(secret, code, at(3000 + off)));
    expect(taken).toEqual([null, 100, 100, 100, 100, null]);
  });

  it.each(['', '12345', '1234567', 'abcdef', '000000'])('"%s" is none', (code) => {
    expect(stepOfCode(secret, code, at(59))).toBe(null);
  });
});
