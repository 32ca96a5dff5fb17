import {
  Equations,
  groupsOfFounders,
  MeritError,
  reml,
  traitsTogether,
  valuesByReml,
  type AnimalScores,
} from '@linewright/merit';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { Chance } from './simulated-line.js';

const seed = 20_261_127;

interface Truth {
  readonly genetic: number;
  readonly residual: number;
  readonly families: number;
  readonly young: number;
}

/** Full-sib families of unrelated parents, parents and young scored in two traits, each of heritability 0.5. */
function simulated({ genetic, residual, families, young }: Truth, chance: Chance): AnimalScores {
  const [sire, dam]: number[][] = [[], []];
  const values: [number, number][] = [];
  const pair = (r: number): [number, number] => {
    const x = chance.normal();
    return [x, r * x + Math.sqrt(1 - r * r) * chance.normal()];
  };
  const add = (s: number, d: number, bred: [number, number]): number => {
    sire!.push(s);
    dam!.push(d);
    values.push(bred);
    return values.length - 1;
  };
  for (let family = 0; family < families; family++) {
    const s = add(-1, -1, pair(genetic));
    const d = add(-1, -1, pair(genetic));
    for (let k = 0; k < young; k++) {
      const [x, y] = pair(genetic);
      const mean = (t: 0 | 1): number => (values[s]![t] + values[d]![t]) / 2;
      add(s, d, [mean(0) + Math.SQRT1_2 * x, mean(1) + Math.SQRT1_2 * y]);
    }
  }
  const scored = values.map((bred): [number, number] => {
    const [x, y] = pair(residual);
    return [10 + bred[0] + x, 5 + 3 * (bred[1] + y)];
  });
  return {
    pedigree: pedigreeFromArrays(Int32Array.from(sire!), Int32Array.from(dam!)),
    fish: Int32Array.from(scored.keys()),
    traits: [
      { name: 'spread', values: Float64Array.from(scored, ([x]) => x) },
      { name: 'length', values: Float64Array.from(scored, ([, y]) => y) },
    ],
  };
}

/** The same scores, those of the second trait in rows of their own. */
const onDaysOfTheirOwn = ({ traits, fish, ...rest }: AnimalScores): AnimalScores => {
  const [one, two] = traits;
  const none = new Array<number>(fish.length).fill(NaN);
  return {
    ...rest,
    fish: Int32Array.from([...fish, ...fish]),
    traits: [
      { name: one!.name, values: Float64Array.from([...one!.values, ...none]) },
      { name: two!.name, values: Float64Array.from([...none, ...two!.values]) },
    ],
  };
};

const large: Truth = { genetic: 0.6, residual: -0.3, families: 150, young: 8 };

describe(`two traits together, seed ${seed}`, () => {
  it('are told apart in what is inherited and what is not, within three of their standard errors', () => {
    const { correlations, verdict, likelihoodRatio } = traitsTogether(
      simulated(large, new Chance(seed)),
    );
    const [genetic, residual] = correlations.map(({ correlation }) => correlation!);
    expect(correlations.map(({ name }) => name)).toEqual(['additive', 'residual']);
    for (const [found, truth] of [
      [genetic!, large.genetic],
      [residual!, large.residual],
    ] as const) {
      expect(Math.abs(found.value - truth)).toBeLessThan(3 * found.standardError!);
      expect(found.standardError!).toBeLessThan(0.15);
    }
    expect(verdict).toBe('together');
    expect(likelihoodRatio).toBeGreaterThan(10);
  });

  it('go against each other when one of them is turned round, with the same figures', () => {
    const scores = simulated(large, new Chance(seed));
    const [one, two] = scores.traits;
    const turned = traitsTogether({
      ...scores,
      traits: [one!, { ...two!, values: two!.values.map((value) => -value) }],
    });
    const straight = traitsTogether(scores);
    expect(turned.verdict).toBe('against each other');
    expect(turned.likelihoodRatio).toBeCloseTo(straight.likelihoodRatio, 3);
    expect(turned.correlations[0]!.correlation!.value).toBeCloseTo(
      -straight.correlations[0]!.correlation!.value,
      4,
    );
  });

  it('have standard errors that are as far off as they say', () => {
    const truth: Truth = { genetic: 0.4, residual: 0.2, families: 60, young: 8 };
    const found = Array.from({ length: 60 }, (_, k) =>
      traitsTogether(simulated(truth, new Chance(seed + k))),
    ).map(({ correlations }) => correlations[0]!.correlation!);
    const known = found.filter(({ standardError }) => standardError !== null);
    expect(known.length).toBeGreaterThan(55);
    const mean = known.reduce((sum, { value }) => sum + value, 0) / known.length;
    const spread = Math.sqrt(
      known.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / (known.length - 1),
    );
    const said = known.reduce((sum, one) => sum + one.standardError!, 0) / known.length;
    expect(Math.abs(mean - truth.genetic)).toBeLessThan((4 * spread) / Math.sqrt(known.length));
    // The spread of sixty is known to 9 %.
    expect(said / spread).toBeGreaterThan(0.7);
    expect(said / spread).toBeLessThan(1.4);
  });

  it('are said to go together in few of a hundred lines in which they do not', () => {
    const none: Truth = { genetic: 0, residual: 0.5, families: 12, young: 6 };
    const told = Array.from(
      { length: 100 },
      (_, k) => traitsTogether(simulated(none, new Chance(seed + 1000 + k))).verdict,
    ).filter((verdict) => verdict !== 'cannot tell yet');
    // Five are expected; more than eleven of a hundred come in 1 of 200 such tests.
    expect(told.length).toBeLessThanOrEqual(11);
  });

  it('are told by the same ratio when founders of two lines, that do not differ, have means of their own', () => {
    const none: Truth = { genetic: 0, residual: 0.3, families: 40, young: 6 };
    const ratios = Array.from({ length: 12 }, (_, k) => {
      const scores = simulated(none, new Chance(seed + 2000 + k));
      const { pedigree } = scores;
      const groupOf = pedigree.sire.map((sire, i) => (sire < 0 ? i % 2 : -1));
      const groups = groupsOfFounders(pedigree, ['A', 'B'], groupOf);
      const plain = traitsTogether(scores).likelihoodRatio;
      return { plain, grouped: traitsTogether({ ...scores, groups }).likelihoodRatio };
    });
    for (const { plain, grouped } of ratios) expect(Math.abs(grouped - plain)).toBeLessThan(2);
  });

  it('say nothing where one of them is not inherited, and are asked two at a time', () => {
    const scores = simulated({ genetic: 0, residual: 0, families: 30, young: 6 }, new Chance(seed));
    const chance = new Chance(seed + 1);
    const [one] = scores.traits;
    const noise = { name: 'noise', values: one!.values.map(() => chance.normal()) };
    const { verdict, correlations } = traitsTogether({ ...scores, traits: [one!, noise] });
    expect(verdict).toBe('cannot tell yet');
    const genetic = correlations[0]!.correlation;
    expect(genetic === null || genetic.standardError === null || genetic.standardError > 0.2).toBe(
      true,
    );
    expect(() => traitsTogether({ ...scores, traits: [one!] })).toThrow(MeritError);
  });

  it('are told apart where no fish was scored for both in one row, and of the rest nothing is told', () => {
    const { correlations, verdict, solved } = traitsTogether(
      onDaysOfTheirOwn(simulated(large, new Chance(seed))),
    );
    const [genetic, rest] = correlations.map(({ correlation }) => correlation);
    expect(verdict).toBe('together');
    expect(genetic!.standardError!).toBeLessThan(0.15);
    // What both scores of a fish share by its rearing is -0.3 of the rest, and is counted as inherited: 0.6 - 0.3 * 0.5 / (1 + 0.5) at the least.
    expect(genetic!.value).toBeGreaterThan(0.2);
    expect(genetic!.value).toBeLessThan(0.8);
    expect(rest).toBeNull();
    expect(solved.variances.residual[0]![1]).toBe(0);
  });

  it('are as likely as each alone where nothing ties them', () => {
    const scores = onDaysOfTheirOwn(simulated(large, new Chance(seed)));
    const { equations } = traitsTogether(scores).solved;
    const [additive] = equations.model.random;
    const apart = additive!.slots.map((slot, k) => ({
      ...additive!,
      name: `of trait ${k}`,
      slots: [slot],
    }));
    const both = reml(new Equations({ ...equations.model, random: apart }));
    const alone = scores.traits.map((trait) => valuesByReml({ ...scores, traits: [trait] }));
    expect(both.logLikelihood).toBeCloseTo(
      alone.reduce((sum, { components }) => sum + components.restrictedLogLikelihood, 0),
      4,
    );
  });

  it('have the values of the model with both', () => {
    const scores = simulated({ ...large, families: 20 }, new Chance(seed + 2));
    const { values } = valuesByReml(scores);
    const { solved } = traitsTogether(scores);
    const equations = solved.equations.termEquation[0]!;
    values[1]!.value.forEach((value, i) =>
      expect(solved.solution[equations[2 * i + 1]!]!).toBeCloseTo(value, 8),
    );
  });
});
