import { expect, it } from 'vitest';
import { sources } from './sources.js';

it('a source names author, year, title, journal and volume, or says "from memory" beside it', () => {
  const complete = /^[A-Z][^()]+\(\d{4}\) [^:]+\. .+ \d+(\(\d+\))?:\w+/;
  for (const { id, citation, basis } of sources) {
    if (basis === 'common practice, no source' || basis === 'from memory') continue;
    expect(complete.test(citation) || citation.includes('from memory'), id).toBe(true);
  }
});
