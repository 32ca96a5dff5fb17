import { describe, expect, it } from 'vitest';
import { opensAlone, pagesAtFirst } from './pages-kept.js';

describe('whether the pages open without a connection', () => {
  it.each([
    ['plain HTTP from another machine', false, undefined, 'insecure', false],
    ['plain HTTP where the browser has workers all the same', false, {}, 'insecure', false],
    ['a browser without workers', true, undefined, 'unable', false],
    ['a first visit', true, { controller: null }, 'coming', true],
    ['a later one', true, { controller: {} }, 'kept', true],
  ] as const)('%s', (_, isSecureContext, worker, pages, alone) => {
    const serviceWorker =
      worker === undefined ? undefined : { controller: null as unknown, ...worker };
    const found = pagesAtFirst({ isSecureContext, serviceWorker });
    expect(found).toBe(pages);
    expect(opensAlone(found)).toBe(alone);
  });
});
