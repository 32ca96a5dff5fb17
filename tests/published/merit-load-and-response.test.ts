/** Counts out of counts, inbreeding depression and selection, against printed examples; sources stand at each case. */
import {
  costOfInbreeding,
  excessRisk,
  fishSizePrior,
  fitBetaBinomial,
  fitLogitNormal,
  loadFromLosses,
  selectionIntensity,
  sibComponents,
} from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { orobanche } from './class-data.js';
import { expectPrinted } from './scores-of-rows.js';

// Crowder MJ (1978) Appl Stat 27:34-37; Breslow NE & Clayton DG (1993) J Am Stat Assoc 88:9-25. Read in source (documentation of an open
// data collection, R package agridat).
describe('seeds on 21 plates', () => {
  const genotype = orobanche.map(([, g]) => Number(g === 'O75'));
  const extract = orobanche.map(([, , e]) => Number(e === 'cucumber'));
  const counts = {
    successes: orobanche.map(([, , , k]) => k),
    totals: orobanche.map(([, , , , n]) => n),
    columns: [genotype.map(() => 1), genotype, extract, genotype.map((g, k) => g * extract[k]!)],
  };
  it('with a normal effect of the plate (Laplace)', () => {
    const fit = fitLogitNormal(counts);
    expectPrinted(fit.effects, [-0.45, -0.1, 0.53, 0.81], 2, 0.6);
    expectPrinted(fit.standardErrors.map(Number), [0.22, 0.28, 0.3, 0.38], 2, 1);
    expectPrinted([fit.spread, fit.logLikelihood], [0.23, -53.77], 2, 1);
  });
  it('beta-binomial (computed by maximum likelihood with two optimisers)', () => {
    const fit = fitBetaBinomial(counts, 'logit');
    expectPrinted(fit.effects, [-0.4446, -0.0974, 0.5221, 0.7979], 4, 2);
    expectPrinted([fit.spread, fit.logLikelihood], [0.0124, -53.7668], 4, 2);
  });
});

describe('lethal equivalents', () => {
  // Excess risk of children of relatives on the theory of Morton NE, Crow JF & Muller HJ (1956) PNAS 42:855-863: damage 20 % in unrelated
  // couples, two equivalents a gamete. Abstract read; the first is printed as 32 % where the formula gives 31.5 %.
  it('risks of relatives', () => {
    const f = [0.25, 0.125, 0.0625, 0.03125, 0.015625];
    const risk = f.map((value) => excessRisk(-Math.log(0.8), 2, value));
    expectPrinted(risk, [0.32, 0.18, 0.09, 0.05, 0.025], 2, 0.6);
  });
  // Ralls K, Ballou JD & Templeton A (1988) Conserv Biol 2:185-193: median 3.14 (from memory) lethal equivalents a diploid.
  it('cost of a full-sib mating', () => {
    expectPrinted([costOfInbreeding(3.14 / 2, 0.25)], [0.325], 3, 0.6);
  });
  // Kincaid HL (1976), survival of trout to 147 days after one and two generations of full-sib mating. Losses read; loads computed.
  it('trout', () => {
    const losses = [
      { inbreeding: 0.25, loss: 0.146 },
      { inbreeding: 0.375, loss: 0.297 },
    ];
    expectPrinted(
      losses.map((one) => loadFromLosses([one])),
      [0.6313, 0.9397],
      4,
      1,
    );
    expectPrinted([loadFromLosses(losses), 2 * loadFromLosses(losses)], [0.8448, 1.6897], 4, 1);
  });
});

describe('selection', () => {
  // Falconer & Mackay (1996) Appendix Table A; from memory, confirmed by computation.
  it('intensities', () => {
    expectPrinted(
      [0.01, 0.05, 0.1, 0.2, 0.5].map(selectionIntensity),
      [2.665, 2.063, 1.755, 1.4, 0.798],
      3,
    );
  });
  // Falconer & Mackay (1996), body weight of mice, as reproduced in lecture notes by Holsinger KE (read).
  it('sib analysis of mice', () => {
    const found = sibComponents({ sires: 17.1, dams: 10.79, within: 2.19 }, 3.48, 4.16, 2.33);
    expectPrinted(
      [found.within, found.dams, found.sires, found.phenotypic],
      [2.19, 2.47, 0.48, 5.14],
      2,
    );
    expectPrinted([found.heritabilityFromSires], [0.37], 2);
  });
  // Vandeputte M et al. (2008) Aquaculture 277:7-13, length of common carp: 0.21 to 0.33 by the animal model, 0.24 to 0.34 as realised in
  // selection upwards (abstract read).
  it('the prior for size of fish has its weight where carp were found', () => {
    const { density } = fishSizePrior;
    const grid = Array.from({ length: 1000 }, (_, k) => (k + 0.5) / 1000);
    const weight = grid.map(density);
    const total = weight.reduce((sum, w) => sum + w, 0);
    const mean = grid.reduce((sum, h, k) => sum + (h * weight[k]!) / total, 0);
    expect(mean).toBeGreaterThan(0.24);
    expect(mean).toBeLessThan(0.33);
    const inside = grid.reduce(
      (sum, h, k) => sum + (h >= 0.21 && h <= 0.34 ? weight[k]! / total : 0),
      0,
    );
    // Wider than what was found in carp: most of it lies elsewhere, so that other fish can differ.
    expect(inside).toBeGreaterThan(0.2);
    expect(inside).toBeLessThan(0.5);
  });
});
