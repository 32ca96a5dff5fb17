import { describe, expect, it } from 'vitest';
import { FieldChecks } from './field-checks.js';
import { RequestError, fieldError, notFound } from './request-error.js';

describe('checks of a form', () => {
  it('tell all fields at once, in order', async () => {
    const checks = new FieldChecks();
    checks.refuse('tag', 'No tag.');
    expect(checks.keepNow(() => 7)).toBe(7);
    await checks.keep(() =>
      Promise.reject(
        fieldError({ field: 'on', message: 'No day.' }, { field: 'at', message: 'No time.' }),
      ),
    );
    let told: unknown;
    try {
      checks.expectNone();
    } catch (error) {
      told = error;
    }
    expect(told).toBeInstanceOf(RequestError);
    expect(told).toMatchObject({ code: 'VALIDATION', message: 'No tag. No day. No time.' });
    expect((told as RequestError).details['fields']).toHaveLength(3);
  });

  it('are silent when nothing is wrong, and let other errors pass', async () => {
    const checks = new FieldChecks();
    expect(() => checks.expectNone()).not.toThrow();
    const missing = notFound('fish', 'f1');
    await expect(checks.keep(() => Promise.reject(missing))).rejects.toBe(missing);
    const fault = new TypeError('a fault of the program');
    expect(() =>
      checks.keepNow(() => {
        throw fault;
      }),
    ).toThrow(fault);
  });
});
