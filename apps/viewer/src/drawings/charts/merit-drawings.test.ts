import { createElement, type FunctionComponent } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { bandHeight, widestFirst } from './bands.js';
import { reachOf } from './expected-and-came.js';
import {
  curveText,
  HeritabilityCurve,
  heritabilityScales,
  throughMiddles,
} from './heritability-curve.js';
import { InbreedingCost } from './inbreeding-cost.js';
import { dotRadius, inbreedingScales } from './inbreeding-plot.js';
import { InbreedingSize, sizeDomain } from './inbreeding-size.js';
import { plotArea } from './plot-area.js';
import { moveScale, RelativeShares, sharesOfMoves } from './relative-shares.js';
import { changeDomain, sinceFirst, TraitTrend, trendText } from './trait-trend.js';
import { kinScale, stacked, ValueAmongKin } from './value-among-kin.js';

const draw = <Props extends object>(drawing: FunctionComponent<Props>, props: Props): string =>
  renderToStaticMarkup(createElement(drawing, props));
const count = (html: string, pattern: RegExp): number => html.match(pattern)?.length ?? 0;
const bands = [
  { percent: 50, low: 2, high: 6 },
  { percent: 95, low: -2, high: 10 },
];
const area = plotArea(400, 200, { top: 8, right: 10, bottom: 40, left: 10 });
const signed = (value: number): string => `${value > 0 ? '+' : ''}${value} mm`;

describe('bands', () => {
  it('lie widest first, and are drawn the thinner the surer they are', () => {
    expect(widestFirst(bands).map(({ percent }) => percent)).toEqual([95, 50]);
    expect(bandHeight(50)).toBeGreaterThan(bandHeight(80));
    expect(bandHeight(80)).toBeGreaterThan(bandHeight(95));
  });
});

describe('HeritabilityCurve', () => {
  const cells = [
    { heritability: 0.75, probability: 0.2, before: 0.5 },
    { heritability: 0.25, probability: 0.8, before: 0.5 },
  ];

  it('runs from 0 to 1, from the floor to the likeliest cell', () => {
    const { x, y } = heritabilityScales(throughMiddles(cells), area);
    expect([x(0), x(1)]).toEqual([10, 390]);
    expect(y(0.8)).toBe(8);
    // The bands lie between the curve and the axis.
    expect(y(0)).toBe(134);
    expect(heritabilityScales([], area).y(1)).toBe(8);
  });

  it('is drawn through the middles of the cells in order, level to the ends they reach', () => {
    expect(throughMiddles(cells)).toEqual([
      { heritability: 0, likely: 0.8 },
      { heritability: 0.25, likely: 0.8 },
      { heritability: 0.75, likely: 0.2 },
      { heritability: 1, likely: 0.2 },
    ]);
    expect(throughMiddles([])).toEqual([]);
  });

  it('falls to nothing beside cells that leave the rest of the scale out', () => {
    const fine = [0.4, 0.5].map((heritability) => ({
      heritability,
      probability: 0.5,
      before: 0.1,
    }));
    const drawn = throughMiddles(fine);
    expect(drawn.map(({ likely }) => likely)).toEqual([0, 0.5, 0.5, 0]);
    expect(drawn[0]?.heritability).toBeCloseTo(0.3);
    expect(drawn[3]?.heritability).toBeCloseTo(0.6);
  });

  it('says the figure and its bands in words, narrow ones first', () => {
    const said = curveText(0.33, [
      { percent: 95, low: 0.1, high: 0.6 },
      { percent: 50, low: 0.25, high: 0.42 },
    ]);
    expect(said).toContain('33 %');
    expect(said.indexOf('between 25 % and 42 % in 50 of 100')).toBeLessThan(
      said.indexOf('between 10 % and 60 % in 95 of 100'),
    );
    const html = draw(HeritabilityCurve, {
      title: 'Passed on',
      cells,
      before: [],
      mean: 0.33,
      bands: [],
    });
    expect(html).toContain('aria-label="Passed on. Best single figure 33 %');
    expect(html).toContain('<details>');
  });
});

describe('ValueAmongKin', () => {
  const fish = { id: 'f', tag: 'F-1', value: 4, bands };
  const sibs = [
    { id: 'f', tag: 'F-1', value: 4 },
    { id: 's', tag: 'F-2', value: 4.01 },
  ];

  it('takes in the bands, everybody, and the mean of the line', () => {
    const x = kinScale({ fish, sibs, line: [{ id: 'l', tag: 'L', value: 31 }] }, 500);
    const [least = 0, most = 0] = x.domain();
    expect(least).toBeLessThanOrEqual(-2);
    expect(most).toBeGreaterThanOrEqual(31);
    const above = kinScale({ fish: { ...fish, bands: [] }, sibs: [], line: [] }, 500);
    expect(above.domain()[0]).toBeLessThanOrEqual(0);
  });

  it('stacks dots that would lie on one another, up to a height', () => {
    expect(stacked([100, 101, 140, 100.5], 8)).toEqual([0, 1, 0, 2]);
    expect(Math.max(...stacked(Array<number>(40).fill(5), 8))).toBe(6);
  });

  it('draws two bands, the fish, and a dot for each of the others; a row without fish is not there', () => {
    const props = { title: 'V', fish, sibs, line: [], words: signed, scale: 'mm' };
    const html = draw(ValueAmongKin, props);
    expect(count(html, /kin-dot/g)).toBe(2);
    expect(count(html, /kin-self/g)).toBe(1);
    expect(html).toContain('Its sibs (2)');
    expect(html).not.toContain('The line (');
    expect(html).toContain('aria-label="V. +4 mm.');
  });
});

describe('TraitTrend', () => {
  const generation = (more: object) => ({
    generation: 0,
    fish: 10,
    scored: 5,
    score: null,
    value: null,
    expected: null,
    came: null,
    ...more,
  });
  const generations = [
    generation({ value: { mean: 0.5, half: 1 } }),
    generation({ generation: 1, score: { mean: 160, half: null }, value: { mean: 2, half: 1 } }),
    generation({ generation: 2, score: { mean: 168, half: 3 }, expected: 4, came: 8 }),
  ];
  const props = {
    title: 'T',
    generations,
    change: signed,
    words: signed,
    bandPercent: 95,
    unit: 'mm',
  };

  it('counts each series from its own first generation', () => {
    expect(sinceFirst(generations, ({ score }) => score)).toEqual([
      { generation: 1, at: 0, half: null },
      { generation: 2, at: 8, half: 3 },
    ]);
    expect(sinceFirst(generations, ({ value }) => value).map(({ at }) => at)).toEqual([0, 1.5]);
  });

  it('has room for the bands and for no change', () => {
    expect(changeDomain([{ generation: 2, at: 8, half: 3 }])).toEqual([0, 11]);
    expect(changeDomain([{ generation: 2, at: -4, half: 1 }])).toEqual([-5, 0]);
    expect(changeDomain([])).toEqual([-1, 1]);
  });

  it('says the whole change in words, or that there is one generation only', () => {
    expect(trendText(props)).toContain('Mean score +8 mm from generation 1 to 2');
    expect(trendText(props)).toContain('what they pass on +1.5 mm from generation 0 to 1');
    expect(trendText({ ...props, generations: generations.slice(0, 1) })).toContain(
      'One generation only',
    );
  });

  it('puts what was expected beside what came, on one scale, and only where one is known', () => {
    expect(reachOf(generations)).toEqual([0, 8]);
    expect(reachOf([{ expected: -2, came: null }])).toEqual([-2, 0]);
    expect(reachOf([])).toEqual([-1, 1]);
    const html = draw(TraitTrend, props);
    expect(html).toContain('What each generation gained on the one before');
    expect(count(html, /<th scope="row">/g)).toBe(1);
    expect(draw(TraitTrend, { ...props, generations: generations.slice(0, 2) })).not.toContain(
      'gained on the one before',
    );
  });
});

describe('InbreedingCost', () => {
  const broods = [
    { id: 'a', tag: 'A', inbreeding: 0, counted: 100, alive: 80 },
    { id: 'b', tag: 'B', inbreeding: 0.25, counted: 25, alive: 10 },
    { id: 'c', tag: 'C', inbreeding: 0.25, counted: 0, alive: 0 },
  ];
  const curve = [0, 0.25].map((inbreeding) => ({
    inbreeding,
    value: 0.8 - inbreeding,
    low: 0.7 - inbreeding,
    high: 0.9 - inbreeding,
    smallest: null,
  }));
  const props = { title: 'C', what: 'alive', whose: 'F of the young', broods, curve };

  it('reaches beyond the most inbred brood, and has room where none is inbred', () => {
    expect(inbreedingScales(broods, [0, 1], area).x.domain()[1]).toBeGreaterThanOrEqual(0.265);
    expect(inbreedingScales([], [0, 1], area).x.domain()[1]).toBe(0.05);
    expect(inbreedingScales(broods, [30, 40], area).y.domain()).toEqual([30, 40]);
  });

  it('draws a brood by how many were counted, and none that was not', () => {
    expect(dotRadius(100, 100)).toBe(9);
    expect(dotRadius(25, 100)).toBe(5.75);
    expect(dotRadius(0, 0)).toBe(2.5);
    // Two broods and the one in the key.
    expect(count(draw(InbreedingCost, props), /<circle/g)).toBe(3);
  });

  it('tells the smallest cost that could have been seen only where there is one', () => {
    expect(draw(InbreedingCost, props)).not.toContain('could have shown');
    const seen = curve.map((point) => ({ ...point, smallest: 0.5 }));
    expect(draw(InbreedingCost, { ...props, curve: seen })).toContain('could have shown');
  });
});

describe('InbreedingSize', () => {
  const broods = [
    { id: 'a', tag: 'A', inbreeding: 0, counted: 8, size: 41 },
    { id: 'b', tag: 'B', inbreeding: 0.25, counted: 4, size: 36 },
  ];
  const curve = [0, 0.25].map((inbreeding) => ({
    ...{ inbreeding, value: 40 - 8 * inbreeding, low: 37, high: 42 },
    smallest: 40 - 20 * inbreeding,
  }));
  const props = { title: 'S', what: 'mean length', whose: 'F of the young', broods, curve };

  it('has room for broods and interval, and for broods all alike', () => {
    const [low, high] = sizeDomain(broods, curve);
    expect([low, high]).toEqual([expect.closeTo(35.64, 9), expect.closeTo(42.36, 9)]);
    expect(sizeDomain(broods.slice(0, 1), [])).toEqual([40.5, 41.5]);
  });

  it('tells each brood, the fitted change, and the smallest loss that could have been seen', () => {
    const html = draw(InbreedingSize, { ...props, words: (size: number) => `${size} mm` });
    expect(count(html, /<circle/g)).toBe(3);
    expect(html).toContain('B: 36 mm');
    expect(html).toContain('the smallest loss these broods could have shown');
  });
});

describe('RelativeShares', () => {
  it('counts parts of all that moves the value, up and down alike', () => {
    expect(sharesOfMoves([3, -1])).toEqual([0.75, 0.25]);
    expect(sharesOfMoves([0, 0])).toEqual([0, 0]);
    const x = moveScale([3, -1]);
    expect([x(-1), x(3)]).toEqual([1, 99]);
    expect(moveScale([]).domain()).toEqual([-1, 1]);
  });

  it('lists relatives with what they move, and the rest together', () => {
    const html = draw(RelativeShares, {
      title: 'R',
      relatives: [{ id: 'a', fish: 'A-1', relation: 'sire', scores: 1, moves: 3 }],
      others: { count: 4, moves: -1 },
      words: signed,
    });
    expect(html).toContain('sire, 1 score<');
    expect(html).toContain('4 other fish');
    expect(html).toContain('+3 mm');
    expect(html).toContain('75 %');
    expect(count(html, /moves-down/g)).toBe(1);
  });
});
