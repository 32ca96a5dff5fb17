import { expect, it } from 'vitest';
import { publishedFigures } from './published-figures.js';

it('a published figure names author, year, title, journal and volume, or says what was not seen', () => {
  const complete = /^[A-Z][^\d]+ \d{4}, .{20,}, .+ \d+(\(\d+\))?:\d+-\d+(, abstract)?$/;
  expect(publishedFigures.length).toBeGreaterThan(5);
  for (const { citation } of publishedFigures) {
    const honest = /from memory|not seen|not given/.test(citation);
    expect(complete.test(citation) || honest, citation).toBe(true);
    expect(citation, citation).toMatch(/\b(19|20)\d\d\b/);
  }
});
