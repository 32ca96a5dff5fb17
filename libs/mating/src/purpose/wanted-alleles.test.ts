import { findLocus } from '@linewright/heredity';
import { describe, expect, it } from 'vitest';
import { wantedAlleles } from './wanted-alleles.js';

const loci = [findLocus('bl'), findLocus('al')];
const look = (show: Record<string, string>, wanted = true) => ({
  look: { show },
  wanted,
  worth: 1,
  required: true,
});

describe('alleles that a wanted look needs', () => {
  it('are both of a heterozygote, and the one of a recessive', () => {
    expect(
      wantedAlleles(loci, [look({ bl: 'royal', al: 'albino' })])
        .map(({ locusId, alleleId }) => `${locusId} ${alleleId}`)
        .toSorted(),
    ).toEqual(
      ['al', 'bl']
        .flatMap((id) =>
          id === 'al'
            ? [`al ${loci[1]!.alleles[1]!.id}`]
            : loci[0]!.alleles.map((one) => `bl ${one.id}`),
        )
        .toSorted(),
    );
  });

  it('are none of a look that is not wanted, and named once', () => {
    expect(wantedAlleles(loci, [look({ al: 'albino' }, false)])).toEqual([]);
    expect(wantedAlleles(loci, [look({ al: 'albino' }), look({ al: 'albino' })])).toHaveLength(1);
  });
});
