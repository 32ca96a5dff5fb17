import { describe, expect, it } from 'vitest';
import { Draws } from '../simulated/draws.js';
import {
  nextQuestion,
  worthsFromAnswers,
  type FishChoice,
  type Compared,
  type ComparedFish,
} from './worth-from-answers.js';

const draws = new Draws(20_261);

/** Spread in degrees and evenness in points out of five, drawn apart; every third fish is royal. */
const fish = Array.from({ length: 40 }, (_, k): ComparedFish => ({
  id: `f${String(k).padStart(2, '0')}`,
  traits: new Map([
    ['spread', 165 + 10 * draws.normal()],
    ['even', 3 + draws.normal()],
  ]),
  looks: new Map([['bl', k % 3 === 0 ? 'royal' : 'steel']]),
}));

const trait = (traitId: string, worth: number) =>
  ({ traitId, better: 'higher', low: null, high: null, worth }) as const;
const royal = (worth: number) => ({
  ...{ look: { show: { bl: 'royal' } }, wanted: true, required: false },
  worth,
});
const compared: Compared = { traits: [trait('spread', 0.1), trait('even', 1)], looks: [royal(2)] };

/** Someone to whom a point of evenness is worth 30 degrees of spread, and royal 20 degrees. */
const truth = ({ traits, looks }: ComparedFish): number =>
  0.1 * traits.get('spread')! + 3 * traits.get('even')! + (looks.get('bl') === 'royal' ? 2 : 0);

const byId = new Map(fish.map((one) => [one.id, one]));
const answer = (a: string, b: string): FishChoice =>
  truth(byId.get(a)!) > truth(byId.get(b)!) ? { chosen: a, other: b } : { chosen: b, other: a };

function answered(number: number): FishChoice[] {
  const choices: FishChoice[] = [];
  while (choices.length < number) {
    const question = nextQuestion(fish, compared, choices);
    if (question === null) break;
    choices.push(answer(question.first, question.second));
  }
  return choices;
}

describe('worths from answers about two fish', () => {
  it('stay as they are without any answer, with an error', () => {
    const { traits, looks } = worthsFromAnswers(fish, compared, []);
    expect(traits.map(({ worth }) => worth)).toEqual([
      expect.closeTo(0.1, 10),
      expect.closeTo(1, 10),
    ]);
    expect(looks[0]?.worth).toBeCloseTo(2, 10);
    expect(traits[0]?.error).toBeGreaterThan(0.05);
  });

  it('move towards those of the person who answers, and grow sure', () => {
    const ratio = (number: number) => {
      const { traits } = worthsFromAnswers(fish, compared, answered(number));
      return { of: traits[1]!.worth / traits[0]!.worth, sure: traits[0]!.sure };
    };
    const [none, some, many] = [ratio(0), ratio(10), ratio(40)];
    expect(none.of).toBeCloseTo(10, 6);
    for (const { of } of [some, many]) {
      expect(of).toBeGreaterThan(24);
      expect(of).toBeLessThan(36);
    }
    expect(many.sure).toBeGreaterThan(none.sure);
    expect(many.sure).toBeGreaterThan(0.95);
  });

  it('fall to 0, and not below, where the answers go against what was stated', () => {
    const lower = (a: string, b: string): FishChoice =>
      byId.get(a)!.traits.get('spread')! < byId.get(b)!.traits.get('spread')!
        ? { chosen: a, other: b }
        : { chosen: b, other: a };
    const choices = fish.slice(1).map(({ id }) => lower(fish[0]!.id, id));
    const more = fish.slice(2).map(({ id }) => lower(fish[1]!.id, id));
    const [spread] = worthsFromAnswers(fish, compared, [...choices, ...more]).traits;
    expect(spread?.worth).toBe(0);
    expect(spread?.sure).toBeLessThan(0.01);
  });

  it('say nothing of what all fish have alike, or is not known of two', () => {
    const plain = fish.map((one) => ({ ...one, looks: new Map([['bl', 'steel']]) }));
    expect(worthsFromAnswers(plain, compared, answered(5)).looks[0]).toEqual({
      ...{ worth: 2, error: 0, sure: 0.5 },
      asked: false,
    });
    const unseen = fish.map((one) => ({ ...one, looks: new Map<string, string>() }));
    expect(worthsFromAnswers(unseen, compared, []).looks[0]?.asked).toBe(false);
  });

  it('count a range by what lies outside of it, and an unwanted look against a fish', () => {
    const range: Compared = {
      traits: [{ ...trait('spread', 1), better: 'within', low: 160, high: 170 }],
      looks: [{ ...royal(1), wanted: false }],
    };
    const of = (id: string, spread: number, look: string): ComparedFish => ({
      ...{ id, traits: new Map([['spread', spread]]) },
      looks: new Map([['bl', look]]),
    });
    const some = [of('a', 165, 'steel'), of('b', 190, 'steel'), of('c', 165, 'royal')];
    const before = worthsFromAnswers(some, range, []);
    const after = worthsFromAnswers(some, range, [
      { chosen: 'a', other: 'b' },
      { chosen: 'a', other: 'c' },
    ]);
    expect(after.traits[0]!.sure).toBeGreaterThan(before.traits[0]!.sure);
    expect(after.looks[0]!.worth).toBeGreaterThan(before.looks[0]!.worth);
  });

  it('ask no pair twice, and stop when nothing is left to ask', () => {
    const three = fish.slice(0, 3);
    const first = nextQuestion(three, compared, []);
    expect(first).not.toBeNull();
    const choices: FishChoice[] = [];
    for (let k = 0; k < 3; k++) {
      const question = nextQuestion(three, compared, choices);
      if (question !== null) choices.push(answer(question.first, question.second));
    }
    expect(new Set(choices.map(({ chosen, other }) => [chosen, other].sort().join())).size).toBe(3);
    expect(nextQuestion(three, compared, choices)).toBeNull();
    const passed = choices.map(({ chosen, other }) => ({ chosen: other, other: chosen }));
    expect(nextQuestion(three, compared, [], passed)).toBeNull();
    expect(nextQuestion([three[0]!, { ...three[0]!, id: 'twin' }], compared, [])).toBeNull();
  });

  it('start from a point for one deviation where nothing is worth anything yet', () => {
    const none = { traits: compared.traits.map((aim) => ({ ...aim, worth: 0 })), looks: [] };
    const { traits } = worthsFromAnswers(fish, none, answered(20));
    expect(traits[1]!.worth).toBeGreaterThan(0.3);
    expect(traits[1]!.worth / traits[0]!.worth).toBeGreaterThan(12);
  });
});
