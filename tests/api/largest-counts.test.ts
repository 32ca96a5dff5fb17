import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectAnswered } from './answered-work.js';
import { startAsked, stopAsked, usableLoci } from './asked-server.js';
import { largestCounts } from './largest-work.js';
import type { MeteredServer } from './metered-server.js';

describe('the largest crosses and counts', () => {
  let server: MeteredServer;
  beforeAll(async () => {
    server = await startAsked();
    await server.measure();
  });
  afterAll(stopAsked);

  it.each(Object.entries(largestCounts))('are answered: %s', async (_, works) => {
    const asked = works(await usableLoci());
    expect(asked.length).toBeGreaterThan(10);
    await expectAnswered(server, asked);
  });
});
