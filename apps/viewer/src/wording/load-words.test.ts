import { describe, expect, it } from 'vitest';
import { broodsLeftOutText, scoresLeftOutText } from './load-words.js';

describe('what is not in the figures of a line', () => {
  it('is counted, and nothing is said where all is in', () => {
    expect([broodsLeftOutText(0), scoresLeftOutText(0)]).toEqual([null, null]);
    expect(broodsLeftOutText(1)).toContain('; 1 older brood is not.');
    expect(broodsLeftOutText(340)).toContain('; 340 older broods are not.');
    expect(scoresLeftOutText(1)).toContain('; 1 older score is not.');
    expect(scoresLeftOutText(1200)).toMatch(/; 1,?200 older scores are not\.$/);
  });
});
