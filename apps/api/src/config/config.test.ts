import { describe, expect, it } from 'vitest';
import { readConfig } from './config.js';

describe('a clock put ahead', () => {
  const ahead = { TEST_CLOCK_AHEAD: '86400000' };

  it('is taken for the records of a test', () => {
    expect(readConfig({ ...ahead, DATA_DIR: '/tmp/linewright-x' }).testClockAhead).toBe(86_400_000);
    const url = 'postgres://u:p@127.0.0.1:5432/linewright_test_1';
    expect(readConfig({ ...ahead, DATABASE_URL: url }).testClockAhead).toBe(86_400_000);
    expect(readConfig({ DATA_DIR: '/tmp/linewright-x' }).testClockAhead).toBe(0);
  });

  it.each([
    ['a folder of records', { DATA_DIR: '/srv/fish/records' }],
    ['a folder named so as to look temporary', { DATA_DIR: '/tmporary/records' }],
    ['a database', { DATABASE_URL: 'postgres://u:p@db:5432/linewright', DATA_DIR: '/tmp/x' }],
    ['production', { DATA_DIR: '/tmp/linewright-x', NODE_ENV: 'production' }],
  ])('is refused with %s', (_, environment) => {
    expect(() => readConfig({ ...ahead, ...environment })).toThrow(/these may be true records/);
  });

  it('is refused when it is no number', () => {
    expect(() => readConfig({ TEST_CLOCK_AHEAD: 'tomorrow', DATA_DIR: '/tmp/x' })).toThrow(
      /whole milliseconds/,
    );
  });
});
