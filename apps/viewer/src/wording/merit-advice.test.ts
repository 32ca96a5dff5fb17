import { describe, expect, it } from 'vitest';
import { adviceFor, missingText, planText, selectionText, untilThen } from './merit-advice.js';

const counts = { fish: 40, broods: 4, sires: 6, dams: 6, otherVersions: 0, ageNotKnown: 0 };
const brood = {
  spawnId: 's',
  tag: 'RB-1',
  sortedOn: null,
  recorded: 30,
  scored: 4,
  drawn: 0,
};

describe('what is missing', () => {
  it('is said with its remedy while nothing can be told', () => {
    expect(missingText({ ...counts, fish: 0 }, 'spread')).toContain('No fish is scored on spread');
    expect(missingText({ ...counts, fish: 2 }, 'spread')).toContain('Only 2 fish are scored');
    expect(missingText({ ...counts, fish: 1 }, 'spread')).toContain('Only 1 fish is scored');
    expect(missingText({ ...counts, broods: 1 }, 'spread')).toContain('score a second brood');
    expect(missingText(counts, 'spread')).toBeNull();
  });
});

describe('what to score next', () => {
  it('begins with broods that are not sorted yet and have no random dozen', () => {
    const [first] = adviceFor(counts, [brood]);
    expect(first).toEqual({
      text: expect.stringContaining('RB-1 is not sorted yet'),
      spawnId: 's',
    });
    for (const no of [{ sortedOn: '2026-05-01' }, { drawn: 12 }, { scored: 30 }])
      expect(adviceFor(counts, [{ ...brood, ...no }])).toEqual([]);
  });

  it('asks for other pairs while few have young scored', () => {
    const texts = adviceFor({ ...counts, sires: 1 }, []).map(({ text }) => text);
    expect(texts).toEqual([expect.stringContaining('come from 1 sire and 6 dams')]);
  });

  it('tells what more scores would narrow', () => {
    const effect = { scoresAdded: 60, heritabilityNow: 0.12, heritabilityThen: 0.0904 };
    expect(planText({ ...effect, plan: 'FIVE_BROODS' })).toBe(
      'A random dozen of each of five new broods of other parents (60 scores more): heritability known to 18 % either way, now 24 %.',
    );
  });

  it('names scores that do not count in full', () => {
    const texts = adviceFor({ ...counts, ageNotKnown: 3, otherVersions: 1 }, []);
    expect(texts.map(({ text }) => text)).toEqual([
      expect.stringContaining('3 scores of fish without a hatch date'),
      expect.stringContaining('1 score of earlier versions'),
    ]);
  });
});

describe('how scores were selected', () => {
  it('is told in counts', () => {
    const told = { scored: 40, scoredBeforeSorting: 10, culled: 0, culledForTrait: 0 };
    expect(selectionText(told)).toContain('10 of 40 scored young');
    expect(selectionText(told)).toContain('(25 %). No cull');
    expect(selectionText({ ...told, culled: 7, culledForTrait: 2 })).toContain(
      '7 culls recorded in these broods, 2 with this trait',
    );
    expect(selectionText({ ...told, scored: 0, scoredBeforeSorting: 0 })).toContain('0 %');
  });
});

describe('while figures are worked out anew', () => {
  it('says what is in those that are shown, and nothing where none are', () => {
    const told = (scoresTakenInSince: number | null, whyNotTakenIn: string | null = null) =>
      untilThen({ scoresTakenInSince, whyNotTakenIn });
    expect(told(null)).toBeNull();
    expect(told(null, 'A fish was looked at again.')?.whileGoing).toMatch(
      /^Nothing is shown until then.* A fish was looked at again\.$/,
    );
    expect(told(1)?.whileGoing).toBe(
      'Until then: values of fish hold the newest score already; how much is inherited is as it was found before.',
    );
    expect(told(3)?.stoppedText).toMatch(/^It was stopped. .* the newest 3 scores already/);
  });
});
