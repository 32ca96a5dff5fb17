/**
 * Simulated schemes against published figures.
 *
 * F over generations: Wright S (1921) Genetics 6:111-178; Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, 4th
 * edition, table 5.1. Basis: from memory, confirmed by independent computation. Printed with three decimals.
 *
 * Young needed to see at least one recessive of two carriers, n = ln(1 - P) / ln(3/4) rounded up: from memory, confirmed by independent
 * computation; Helms T (2000), North Dakota State University, advanced genetics notes (read in the source) prints 10.4 and 16.0 before
 * rounding for 95 and 99 %.
 *
 * Intervals of a counted share: Newcombe RG (1998) Stat Med 17:857-872, table I. Basis: from memory, confirmed by computation.
 */
import {
  backToParentRoute,
  Draws,
  FishJudge,
  RouteTally,
  runRoute,
  siblingRoute,
  SimulatedLine,
  wilsonInterval,
  type LineBelief,
  type Route,
} from '@linewright/mating';
import { describe, expect, it } from 'vitest';
import { beliefOf, recessive, showing } from '../made-belief.js';
import { lastPlace } from './explicit-pedigree.js';

const look = { traits: [], looks: [showing('a', { required: true })] };
const never = { share: 1, ceiling: 1 };

function series(route: Route, belief: LineBelief): number[] {
  const line = new SimulatedLine(belief);
  const judge = new FishJudge(line, look);
  return route.steps.map((_, k) => {
    const part = { ...route, steps: route.steps.slice(0, k + 1) };
    return runRoute(line, judge, part, never, { fryPerBrood: 16, draws: new Draws(1) }).inbreeding;
  });
}

describe('F over the generations of a scheme', () => {
  const belief = beliefOf({ fish: 2, loci: [[recessive('a'), 'A/A']] });

  it('brother to sister: 20 generations as printed', () => {
    const printed = [
      0.25, 0.375, 0.5, 0.594, 0.672, 0.734, 0.785, 0.826, 0.859, 0.886, 0.908, 0.926, 0.94, 0.951,
      0.961, 0.968, 0.974, 0.979, 0.983, 0.986,
    ];
    const route = siblingRoute(0, 1, { generations: 21, parentGenerations: 1 });
    const [first, ...others] = series(route, belief);
    expect(first).toBe(0);
    others.forEach((f, t) =>
      expect(Math.abs(f - printed[t]!), `generation ${t + 1}`).toBeLessThanOrEqual(lastPlace(3)),
    );
  });

  it('back to a fully inbred parent: 0.5, 0.75, 0.875, 0.938, 0.969', () => {
    const inbred = { ...belief, coancestry: Float64Array.from([1, 0, 0, 0.5]) };
    const route = backToParentRoute(0, 1, 'sire', { generations: 6, parentGenerations: 6 });
    const [first, ...others] = series(route, inbred);
    expect(first).toBe(0);
    [0.5, 0.75, 0.875, 0.938, 0.969].forEach((printed, t) =>
      expect(Math.abs(others[t]! - printed)).toBeLessThanOrEqual(lastPlace(3)),
    );
  });
});

describe('young to raise to see one that shows a recessive', () => {
  const belief = beliefOf({ fish: 2, loci: [[recessive('a'), 'A/a']] });
  const route = siblingRoute(0, 1, { generations: 1, parentGenerations: 1 });

  it.each([
    [9, 0.9],
    [11, 0.95],
    [17, 0.99],
    [25, 0.999],
  ])('%i young give a chance of %f', (fry, wanted) => {
    const line = new SimulatedLine(belief);
    const judge = new FishJudge(line, look);
    const chanceOf = (young: number): number => {
      const tally = new RouteTally(1);
      for (let k = 0; k < 20_000; k++) {
        const goal = { share: 1 / young, ceiling: 1 };
        tally.add(runRoute(line, judge, route, goal, { fryPerBrood: young, draws: new Draws(k) }));
      }
      return tally.figures().chance;
    };
    const error = Math.sqrt((wanted * (1 - wanted)) / 20_000);
    expect(chanceOf(fry)).toBeGreaterThan(wanted - 4 * error);
    // Two young fewer would not do.
    expect(chanceOf(fry - 2)).toBeLessThan(wanted);
  });
});

describe('the interval of a counted share', () => {
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i', (x, n, low, high) => {
    const interval = wilsonInterval(x, n);
    expect(Math.abs(interval.low - low)).toBeLessThanOrEqual(0.00006);
    expect(Math.abs(interval.high - high)).toBeLessThanOrEqual(0.00006);
  });
});
