/** What young are expected to be, against broods drawn one by one. Seeds are fixed. */
import {
  bestOfBrood,
  chanceOfPassing,
  expectedYoung,
  fryToRaise,
  inbreedingCost,
  LookShares,
  mendelianVariance,
  PairWorths,
  passingShares,
  type TraitAim,
  type TraitVariation,
  type WorthStock,
} from '@linewright/mating';
import { inbreedingCoefficients, withinFamilyVariance } from '@linewright/kinship';
import { normals } from '@linewright/merit';
import { seededChance, type Chance } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopedPedigrees } from './looped-pedigrees.js';

const SEED = 20261127;

const normal = (chance: Chance): number => normals(chance)();

interface Trait extends TraitVariation {
  readonly sire: { readonly value: number; readonly standardError: number };
  readonly dam: { readonly value: number; readonly standardError: number };
}

interface Young {
  readonly score: number;
  /** Its score without its own luck. */
  readonly inherited: number;
}

/** The young of one brood: parents' true values, the brood's share and each young's own are drawn anew. */
function drawYoung(chance: Chance, trait: Trait, f: [number, number], count: number): Young[] {
  const true_ = ({ value, standardError }: Trait['sire']) => value + standardError * normal(chance);
  const shared =
    trait.level +
    (true_(trait.sire) + true_(trait.dam)) / 2 +
    Math.sqrt(trait.commonBrood) * normal(chance);
  // The draw of each parent's alleles, by itself: a quarter of (1 - F) V_A.
  const draw = (own: number) => Math.sqrt(((1 - own) * trait.additive) / 4) * normal(chance);
  return Array.from({ length: count }, () => {
    const inherited = shared + draw(f[0]) + draw(f[1]);
    return { inherited, score: inherited + Math.sqrt(trait.residual) * normal(chance) };
  });
}

const drawBrood = (...of: Parameters<typeof drawYoung>): number[] =>
  drawYoung(...of).map(({ score }) => score);

const spread: Trait = {
  ...{ level: 170, additive: 40, commonBrood: 6, residual: 25 },
  sire: { value: 5, standardError: 4 },
  dam: { value: -1, standardError: 3 },
};
const body: Trait = {
  ...{ level: 30, additive: 4, commonBrood: 0.5, residual: 4 },
  sire: { value: 0, standardError: 1 },
  dam: { value: 1, standardError: 1.5 },
};
const INBREEDING: [number, number] = [0.25, 0.4];

const youngOf = (trait: Trait) =>
  expectedYoung(
    { ...trait.sire, inbreeding: INBREEDING[0] },
    { ...trait.dam, inbreeding: INBREEDING[1] },
    trait,
  );

describe('the chance that the best of a brood pass', () => {
  it('is what happens in drawn broods', () => {
    const [wanted, fry, survival] = [6, 50, 0.7];
    const look = 0.5;
    const shares = passingShares(
      [
        { young: youngOf(spread), low: 172, high: null },
        { young: youngOf(body), low: 28, high: 33 },
      ],
      [{ weight: 1, share: look }],
    );
    const said = chanceOfPassing(shares, wanted, fry, survival);
    const chance = seededChance(SEED);
    const broods = 20_000;
    let happened = 0;
    for (let k = 0; k < broods; k++) {
      const [first, second] = [spread, body].map((trait) =>
        drawBrood(chance, trait, INBREEDING, fry),
      );
      const passed = first!.filter(
        (score, i) =>
          chance() < survival &&
          chance() < look &&
          score >= 172 &&
          second![i]! >= 28 &&
          second![i]! <= 33,
      ).length;
      if (passed >= wanted) happened++;
    }
    const share = happened / broods;
    expect(said).toBeGreaterThan(0.2);
    expect(said).toBeLessThan(0.8);
    expect(Math.abs(share - said)).toBeLessThan(4 * Math.sqrt((said * (1 - said)) / broods));
  });

  it('rises with every fry, and the number of fry told is the least that reaches it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 150, max: 180, noNaN: true }),
        fc.integer({ min: 1, max: 6 }),
        fc.constantFrom(0.8, 0.9, 0.95),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        (low, wanted, certainty, survival) => {
          const shares = passingShares([{ young: youngOf(spread), low, high: null }]);
          const fry = fryToRaise(shares, wanted, certainty, survival);
          fc.pre(fry !== null);
          expect(chanceOfPassing(shares, wanted, fry, survival)).toBeGreaterThanOrEqual(
            certainty - 1e-9,
          );
          if (fry > wanted)
            expect(chanceOfPassing(shares, wanted, fry - 1, survival)).toBeLessThan(certainty);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });
});

const aim = (change: Partial<TraitAim> = {}): TraitAim => ({
  ...{ traitId: 'spread', better: 'higher', low: null, high: null, worth: 1 },
  ...change,
});

const oneOf = ({ value, standardError }: Trait['sire']) => ({
  value: Float64Array.of(value),
  standardError: Float64Array.of(standardError),
});

const stockOf = (traits: readonly [Trait, TraitAim][], change: Partial<WorthStock> = {}) => ({
  traits: traits.map(([trait, wanted]) => ({
    ...trait,
    aim: wanted,
    // Nothing is taken off: young of the line have 0 points as they are.
    line: { mean: wanted.low ?? 0, deviation: 0 },
    males: oneOf(trait.sire),
    females: oneOf(trait.dam),
  })),
  looks: [],
  inbreeding: {
    males: Float64Array.of(INBREEDING[0]),
    females: Float64Array.of(INBREEDING[1]),
  },
  coancestry: () => 0,
  ...{ keep: 5, raised: 40, inbreedingCost: 0, load: 0 },
  ...change,
});

/** Mean inherited points of those kept for their scores, over drawn broods, and the standard error of that mean. */
function drawnPoints(
  broods: number,
  kept: number,
  brood: (chance: Chance) => Young[],
): [mean: number, error: number] {
  const chance = seededChance(SEED + 1);
  let [sum, squares] = [0, 0];
  for (let k = 0; k < broods; k++) {
    const best = brood(chance)
      .toSorted((a, b) => b.score - a.score)
      .slice(0, kept);
    const mean = best.reduce((total, { inherited }) => total + inherited, 0) / kept;
    sum += mean;
    squares += mean ** 2;
  }
  const mean = sum / broods;
  return [mean, Math.sqrt((squares / broods - mean ** 2) / broods)];
}

describe('the worth of a pair', () => {
  it('is what the best of drawn broods come to, for two traits', () => {
    const [more, less] = [aim({ worth: 1 }), aim({ better: 'lower', worth: 2 })];
    const worth = new PairWorths(
      stockOf([
        [spread, more],
        [body, less],
      ]),
    ).worth(0, 0);
    const [mean, error] = drawnPoints(6_000, 5, (chance) => {
      const [first, second] = [spread, body].map((trait) =>
        drawYoung(chance, trait, INBREEDING, 40),
      );
      return first!.map((one, i) => ({
        score: one.score - 2 * second![i]!.score,
        inherited: one.inherited - 2 * second![i]!.inherited,
      }));
    });
    expect(Math.abs(worth - mean)).toBeLessThan(4 * error);
  });

  it('comes near it where points are not normal: a range wanted, and a look', () => {
    const range = aim({ better: 'within', low: 170, high: 176, worth: 1 });
    const look = { look: { show: { bl: 'steel' } }, wanted: true, worth: 4, required: false };
    const shares = new LookShares([{ bl: 'Bl/bl' }], [{ bl: 'bl/bl' }], look.look);
    const stock = stockOf([[spread, range]], { looks: [{ aim: look, shares }] });
    const worth = new PairWorths(stock).worth(0, 0);
    const pointsOf = (score: number): number => Math.min(0, score - 170) + Math.min(0, 176 - score);
    const [mean] = drawnPoints(6_000, 5, (chance) =>
      drawYoung(chance, spread, INBREEDING, 40).map(({ score, inherited }) => {
        // A young's luck falls on it once more when it is asked what it is worth: the brood's mean holds the luck of all.
        const lucky = inherited + Math.sqrt(spread.residual) * normal(chance);
        const seen = chance() < 0.5 ? 4 : 0;
        return { score: seen + pointsOf(score), inherited: seen + pointsOf(lucky) };
      }),
    );
    // No young is worth more than 4 here, which a normal spread does not know: within 1.5 points of some 20 that broods spread over.
    expect(Math.abs(worth - mean)).toBeLessThan(1.5);
  });

  it('has the standard error that the parents drawn anew give it', () => {
    const stock = stockOf([[spread, aim()]]);
    const said = new PairWorths(stock).of(0, 0).standardError;
    const chance = seededChance(SEED + 2);
    const draws = Array.from({ length: 4_000 }, () => {
      const drawn = {
        ...spread,
        sire: { value: spread.sire.value + 4 * normal(chance), standardError: 4 },
        dam: { value: spread.dam.value + 3 * normal(chance), standardError: 3 },
      };
      return new PairWorths(stockOf([[drawn, aim()]])).worth(0, 0);
    });
    const mean = draws.reduce((sum, each) => sum + each, 0) / draws.length;
    const deviation = Math.sqrt(
      draws.reduce((sum, each) => sum + (each - mean) ** 2, 0) / draws.length,
    );
    expect(deviation / said).toBeGreaterThan(0.95);
    expect(deviation / said).toBeLessThan(1.05);
  });

  it('never rises with F, and falls by what is stated for it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (one, other, load) => {
          const traits = stockOf([[spread, aim()]]).traits;
          const { points } = inbreedingCost(3, traits);
          const at = (f: number) =>
            new PairWorths(
              stockOf([[spread, aim()]], {
                ...{ coancestry: () => f, inbreedingCost: points, load },
              }),
            ).worth(0, 0);
          const [less, more] = [Math.min(one, other), Math.max(one, other)];
          expect(at(less) - at(more)).toBeGreaterThanOrEqual(30 * (more - less) - 1e-9);
        },
      ),
      { seed: SEED, numRuns: 60 },
    );
  });
});

describe('the draw of alleles', () => {
  it('is that of the whole pedigree for every fish with both parents', () => {
    fc.assert(
      fc.property(loopedPedigrees(30), (pedigree) => {
        const f = inbreedingCoefficients(pedigree);
        const within = withinFamilyVariance(pedigree, f);
        pedigree.ids.forEach((_, i) => {
          const [sire, dam] = [pedigree.sire[i]!, pedigree.dam[i]!];
          if (sire < 0 || dam < 0) return;
          expect(mendelianVariance(f[sire]!, f[dam]!, 1)).toBeCloseTo(within[i]!, 12);
        });
      }),
      { seed: SEED, numRuns: 60 },
    );
  });
});

describe('the best of a brood', () => {
  it('falls with every young kept and rises with every young raised', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 120 }), fc.integer({ min: 1, max: 60 }), (n, k) => {
        const kept = Math.min(k, n - 1);
        const here = bestOfBrood(n, kept);
        expect(bestOfBrood(n + 1, kept)).toBeGreaterThan(here);
        expect(bestOfBrood(n, kept + 1)).toBeLessThan(here);
      }),
      { seed: SEED, numRuns: 80 },
    );
  });
});
