import { twoAlleleLocus } from '@linewright/heredity';
import { describe, expect, it } from 'vitest';
import { alleleCourse } from '../outcross/outcross-alleles.js';
import { beliefOfFish } from './belief-of-fish.js';
import { Draws } from './draws.js';
import { outcomesOf } from './group-members.js';
import type { LineBelief } from './line-belief.js';
import { SimulatedLine } from './simulated-line.js';

const locus = twoAlleleLocus({
  id: 'd',
  name: 'D',
  symbols: ['D', 'd'],
  looks: ['normal', 'recessive'],
});
const genotypes = [['D', 'D'], ['D', 'd'], ['d', 'd']] as const; // prettier-ignore

/** Three fish, of which the first two either both carry or neither, by turns; the third is sure. */
const belief: LineBelief = {
  fish: ['sire', 'dam', 'other'],
  sex: ['male', 'female', 'male'],
  coancestry: Float64Array.from([0.5, 0, 0, 0, 0.5, 0, 0, 0, 0.5]),
  traits: [],
  loci: [
    {
      locus,
      groups: [{ fish: [0, 1, 2], genotypes, draws: Uint8Array.from([0, 0, 2, 1, 1, 2]) }],
    },
  ],
};

const copiesIn = (line: SimulatedLine): number[] =>
  [0, 1, 2].map((fish) => line.copies(fish, 0, 1));

describe('genotypes drawn together beforehand', () => {
  it('are taken in turn by the runs of a simulation, and again from the first', () => {
    const line = new SimulatedLine(belief);
    const runs = [0, 1, 2, 3].map((run) => {
      line.begin(Draws.ofRun(5, run));
      return copiesIn(line);
    });
    expect(runs).toEqual([[0, 0, 2], [1, 1, 2], [0, 0, 2], [1, 1, 2]]); // prettier-ignore
  });

  it('go together in the young: a quarter of one half shows it, where fish drawn apart would give a sixteenth', () => {
    const line = new SimulatedLine(belief);
    const [runs, each] = [400, 20];
    let showing = 0;
    for (let run = 0; run < runs; run++) {
      line.begin(Draws.ofRun(5, run));
      const { first } = line.spawn(0, 1, each);
      for (let k = first; k < first + each; k++) showing += Number(line.copies(k, 0, 1) === 2);
    }
    const share = showing / (runs * each);
    expect(Math.abs(share - 1 / 8)).toBeLessThan(0.02);
  });

  it('stay together where some of the fish are looked at', () => {
    const some = beliefOfFish(belief, [2, 1]);
    expect(some.loci[0]!.groups).toEqual([
      { fish: [1, 0], genotypes, draws: Uint8Array.from([0, 2, 1, 2]) },
    ]);
  });

  it('are outcomes by how often they came', () => {
    const [group] = beliefOfFish(belief, [0, 1]).loci[0]!.groups;
    expect(outcomesOf(group!)).toEqual([
      { genotypes: [genotypes[0], genotypes[0]], probability: 1 / 2 },
      { genotypes: [genotypes[1], genotypes[1]], probability: 1 / 2 },
    ]);
  });

  it('give an outcross what the same outcomes with chances give it', () => {
    const told = {
      ...belief,
      loci: [
        {
          locus,
          groups: [
            {
              fish: [0, 1, 2],
              outcomes: [
                { genotypes: [genotypes[0], genotypes[0], genotypes[2]], probability: 1 / 2 },
                { genotypes: [genotypes[1], genotypes[1], genotypes[2]], probability: 1 / 2 },
              ],
            },
          ],
        },
      ],
    } satisfies LineBelief;
    const fish = { partner: 2, mate: 1, back: 0 };
    const watched = { locusId: 'd', alleleId: locus.alleles[1]!.id };
    const [drawn, exact] = [belief, told].map((one) =>
      alleleCourse(one, [0, 1], { fish, after: 'back' }, watched, 3),
    );
    expect(drawn).toEqual(exact);
    expect(drawn!.inLine).toBe(1 / 4);
  });

  it.each([
    [[0, 0, 3], 'place in the list'],
    [[0, 0], 'one for each fish and draw'],
    [[], 'one for each fish and draw'],
  ])('refuse draws %j', (draws, remedy) => {
    const bad: LineBelief = {
      ...belief,
      loci: [{ locus, groups: [{ fish: [0, 1, 2], genotypes, draws: Uint8Array.from(draws) }] }],
    };
    expect(() => new SimulatedLine(bad)).toThrowError(remedy);
  });
});
