import { describe, expect, it } from 'vitest';
import { comparedFish, comparedOf, comparedOfAll, pointsOf, sureness } from './compared-fish.js';

describe('fish as they are compared', () => {
  it('have the look seen last at a locus, and none that was withdrawn', () => {
    const seen = (locusId: string, phenotype: string, seenOn: string, withdrawn = false) => ({
      ...{ id: `${locusId} ${seenOn}`, locusId, phenotype, seenOn },
      withdrawn: withdrawn ? { at: '2026-01-09T00:00:00Z' } : null,
    });
    const fish = comparedFish({
      ...{ id: 'f', tag: 'F', name: null, sex: 'MALE', hatchDate: null, photos: [] },
      latestScores: [{ id: 's', value: 7, trait: { id: 't' } }],
      phenotypesSeen: [
        seen('bl', 'steel', '2026-01-05'),
        seen('bl', 'royal', '2026-01-02'),
        seen('dt', 'double', '2026-01-03', true),
      ],
    });
    expect([...fish.looks]).toEqual([['bl', 'steel']]);
    expect([...fish.traits]).toEqual([['t', 7]]);
  });

  it('are compared in what stands in the form; points that cannot be read count as none', () => {
    const { traits, looks } = comparedOf({
      traits: [{ traitId: 't', better: 'WITHIN', low: '1,5', high: '', worth: 'much' }],
      looks: [{ parts: ['bl:royal', 'dt:double'], wanted: 'no', worth: '2', required: true }],
    });
    expect(traits).toEqual([{ traitId: 't', better: 'within', low: 1.5, high: null, worth: 0 }]);
    expect(looks[0]).toMatchObject({
      look: { show: { bl: 'royal', dt: 'double' } },
      ...{ wanted: false, worth: 2 },
    });
  });

  it('are told of how many, where some are left out', () => {
    expect(comparedOfAll(60, 143)).toMatch(/^Compared are the first 60 by tag of the 143 fish/);
    expect(comparedOfAll(60, 60)).toBeNull();
  });

  it('give points of three digits, and a word for how sure they are', () => {
    const worth = (worth: number, sure: number, asked = true) => ({ worth, error: 1, sure, asked });
    const found = {
      traits: [worth(1.23456, 0.99), worth(0.00123456, 0.9)],
      looks: [worth(0, 0.1)],
    };
    expect(pointsOf(found)).toEqual({ traits: ['1.23', '0.00123'], looks: ['0'] });
    const words = [...found.traits, ...found.looks, worth(1, 0.6), worth(1, 0.5, false)];
    expect(words.map(sureness)).toEqual(['sure', 'likely', 'against', 'open', 'not asked']);
  });
});
