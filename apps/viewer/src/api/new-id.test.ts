import { describe, expect, it } from 'vitest';
import { newId } from './new-id.js';

describe('newId', () => {
  it('is a UUID of version 4, another one each time', () => {
    const ids = Array.from({ length: 50 }, newId);
    for (const id of ids)
      expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(new Set(ids).size).toBe(50);
  });
});
