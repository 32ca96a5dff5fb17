import { expect, it } from 'vitest';
import { latestLooks } from './latest-looks.js';

const look = (
  locusId: string,
  phenotype: string,
  seenOn: string,
  setAside: string | null = null,
) => ({
  ...{ locusId, phenotype, seenOn, setAside },
  name: phenotype,
});

it('takes the look last seen at each locus, and none that is set aside', () => {
  const found = latestLooks([
    look('bl', 'royal', '2026-05-01'),
    look('bl', 'steel', '2026-03-01'),
    look('dt', 'double', '2026-02-01'),
    look('dt', 'single', '2026-06-01', 'Both parents are double tails.'),
    look('m', 'melano', '2026-02-01'),
    look('m', 'ordinary', '2026-02-01'),
  ]);
  expect(found.map(({ phenotype }) => phenotype)).toEqual(['royal', 'double', 'ordinary']);
});
