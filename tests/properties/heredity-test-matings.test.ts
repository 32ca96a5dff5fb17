import {
  defineLocus,
  type GenotypeSet,
  type Locus,
  rankTestMatings,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** Weights of the genotypes with 0, 1 and 2 recessive alleles; null: nothing on record. */
type Belief = readonly [number, number, number];

const locusOf = (
  id: string,
  survives: number,
  penetrance: number,
  hiddenBy: Locus['hiddenBy'] = [],
): Locus =>
  defineLocus({
    id,
    name: id,
    alleles: [
      { id: 'plain', symbol: `${id.toUpperCase()}`, name: 'plain' },
      { id: 'rare', symbol: id, name: 'rare' },
    ],
    phenotypes: [
      { id: 'no', name: 'no' },
      { id: 'yes', name: 'yes' },
    ],
    expression: [
      {
        genotype: `${id}/${id}`,
        shows: [
          { phenotype: 'yes', probability: `${penetrance}/4` },
          { phenotype: 'no', probability: `${4 - penetrance}/4` },
        ],
      },
      { genotype: '-/-', shows: [{ phenotype: 'no', probability: '1' }] },
    ],
    viability: [{ genotype: `${id}/${id}`, survival: `${survives}/4`, why: 'drawn' }],
    hiddenBy,
  });

const weighted = (belief: Belief): WeightedGenotypeInput[] => {
  const sum = belief.reduce((a, b) => a + b, 0);
  return (
    [
      ['plain', 'plain'],
      ['plain', 'rare'],
      ['rare', 'rare'],
    ] as const
  ).map((genotype, i) => ({ genotype, probability: `${belief[i]}/${sum}` }));
};

/** Chance that a living young shows `rare`, by copies in the parents; null where no young live. Written apart from the library. */
const showsRare = (s: number, d: number, survives: number, penetrance: number): number | null => {
  const both = (s / 2) * (d / 2);
  const living = 1 - both + both * (survives / 4);
  return living === 0 ? null : (both * (survives / 4) * (penetrance / 4)) / living;
};

const entropy = (list: readonly number[]): number => {
  const sum = list.reduce((a, b) => a + b, 0);
  return list.reduce((h, x) => (x > 0 ? h - (x / sum) * Math.log2(x / sum) : h), 0);
};

const belief: fc.Arbitrary<Belief> = fc.oneof(
  fc.tuple(fc.nat(3), fc.nat(3), fc.nat(3)).filter((one) => one.some((x) => x > 0)),
  fc.constant<Belief>([0, 0, 1]),
);

interface Drawn {
  fish: Belief;
  partner: Belief;
  hiders: { survives: number; penetrance: number; fish: Belief; partner: Belief }[];
  fry: number;
  survives: number;
}

const drawn: fc.Arbitrary<Drawn> = fc.record({
  fish: fc.tuple(fc.nat(3), fc.integer({ min: 1, max: 3 }), fc.constant(0)),
  partner: belief,
  hiders: fc.array(
    fc.record({
      survives: fc.constantFrom(0, 0, 1, 4),
      penetrance: fc.nat(4),
      fish: belief,
      partner: belief,
    }),
    { maxLength: 2 },
  ),
  fry: fc.integer({ min: 1, max: 4 }),
  survives: fc.integer({ min: 1, max: 4 }),
});

/** Every pair of the hiding loci with the share of the young that shows any of them, pairs without living young left out. */
const hiddenPairs = ({ hiders }: Drawn): { weight: number; hidden: number }[] => {
  let list = [{ weight: 1, clear: 1 }];
  for (const one of hiders) {
    list = list.flatMap(({ weight, clear }) =>
      one.fish.flatMap((x, s) =>
        one.partner.flatMap((y, d) => {
          const shown = showsRare(s, d, one.survives, one.penetrance);
          return shown === null || x * y === 0
            ? []
            : [{ weight: weight * x * y, clear: clear * (1 - shown) }];
        }),
      ),
    );
  }
  const total = list.reduce((sum, one) => sum + one.weight, 0);
  return list.map((one) => ({ weight: one.weight / total, hidden: 1 - one.clear }));
};

/** Information in the brood, by going through every sequence of young: each shows it, does not, or is hidden. */
const information = (one: Drawn, hidden: { weight: number; hidden: number }[]): number => {
  const genotypes = one.fish.reduce((a, b) => a + b, 0);
  const prior = one.fish.map((x) => x / genotypes);
  const partners = one.partner.reduce((a, b) => a + b, 0);
  let left = 0;
  const sequences = 3 ** one.fry;
  for (let at = 0; at < sequences; at++) {
    const young = Array.from({ length: one.fry }, (_, i) => Math.floor(at / 3 ** i) % 3);
    const joint = prior.map((p, g) => {
      let chance = 0;
      one.partner.forEach((w, d) => {
        const shown = showsRare(g, d, one.survives, 4) ?? 0;
        for (const { weight, hidden: h } of hidden) {
          const each = [(1 - h) * (1 - shown), (1 - h) * shown, h];
          chance += (w / partners) * weight * young.reduce((x, kind) => x * each[kind]!, 1);
        }
      });
      return p * chance;
    });
    const sum = joint.reduce((a, b) => a + b, 0);
    if (sum > 0) left += sum * entropy(joint);
  }
  return entropy(one.fish) - left;
};

describe('test matings', () => {
  it('equal going through every brood, with hidden and dying young and uncertain fish (seed 20261126)', () => {
    const met = { some: 0, all: 0, hidden: 0, dying: 0 };
    fc.assert(
      fc.property(drawn, (one) => {
        const hiders = one.hiders.map((hider, i) =>
          locusOf(`h${i}`, hider.survives, hider.penetrance),
        );
        const locus = locusOf(
          't',
          one.survives,
          4,
          hiders.map((hider) => ({ locus: hider.id, phenotypes: ['yes'], why: 'drawn' })),
        );
        const at = (who: 'fish' | 'partner'): GenotypeSet =>
          Object.fromEntries(one.hiders.map((hider, i) => [`h${i}`, weighted(hider[who])]));
        const [found] = rankTestMatings({
          locus,
          fish: weighted(one.fish),
          allele: 'rare',
          fry: one.fry,
          loci: hiders,
          atHiders: at('fish'),
          partners: [{ name: 'p', genotype: weighted(one.partner), atHiders: at('partner') }],
        });
        const pairs = hiddenPairs(one);
        const nothing = pairs.length === 0;
        const partners = one.partner.reduce((a, b) => a + b, 0);
        const showing = one.partner.reduce(
          (sum, w, d) =>
            sum +
            (w / partners) *
              (showsRare(1, d, one.survives, 4) ?? 0) *
              pairs.reduce((inner, pair) => inner + pair.weight * (1 - pair.hidden), 0),
          0,
        );
        expect(found?.notKnown).toBeNull();
        expect(found?.bits).toBeCloseTo(nothing ? 0 : information(one, pairs), 9);
        expect(found?.showing).toBeCloseTo(nothing ? 0 : showing, 9);
        if ((found?.bits ?? 0) > 0) met.some++;
        if (nothing) met.all++;
        if (pairs.some((pair) => pair.hidden > 0 && pair.hidden < 1)) met.hidden++;
        if (one.survives < 4) met.dying++;
      }),
      { seed: 20261126, numRuns: 200 },
    );
    // The draw reaches what it is for.
    for (const [what, times] of Object.entries(met)) expect(times, what).toBeGreaterThan(0);
  });
});
