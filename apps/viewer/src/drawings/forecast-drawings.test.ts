import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { fanDomain, fanText, ForecastFan, type FanPoint } from './charts/forecast-fan.js';
import { OutcrossSteps, stepsDomain, stepsText } from './charts/outcross-steps.js';
import { RouteChances, routesText } from './charts/route-chances.js';
import { linesOf } from './figures.js';

const point = (generation: number, median: number, half: number): FanPoint => ({
  generation,
  median,
  bands: [{ percent: 50, low: median - half / 2, high: median + half / 2 }, { percent: 95, low: median - half, high: median + half }], // prettier-ignore
});
const points = [point(0, 10, 0), point(1, 12, 1), point(2, 14, 4)];
const words = (value: number): string => `${value} cm`;
const other = { name: 'as so far', points: [point(0, 10, 0), point(1, 10, 1), point(2, 9, 2)] };

describe('a fan of what is to come', () => {
  it('takes in all bands and the other way', () => {
    expect(fanDomain({ points })).toEqual([10, 18]);
    expect(fanDomain({ points, other })).toEqual([9, 18]);
    expect(fanDomain({ points: [point(0, 3, 0)] })).toEqual([2.5, 3.5]);
  });

  it('is told in a sentence, widest band and other way with it', () => {
    expect(fanText({ title: 'Length', name: 'the plan', points, other, words })).toBe(
      'the plan: 10 cm now, 14 cm after 2 generations, in 95 of 100 cases 10 cm to 18 cm. as so far: 9 cm. The table below has the same figures.',
    );
  });

  it('draws a band for each share, the widest first', () => {
    const html = renderToStaticMarkup(createElement(ForecastFan, { title: 'Length', name: 'the plan', points, words })); // prettier-ignore
    expect(html.match(/<path/g)!.length).toBeGreaterThanOrEqual(3);
    expect(html).toContain('50 of 100 lines');
    expect(html).not.toContain('as so far');
  });
});

describe('the young of an outcross, step by step', () => {
  const steps = [{ name: 'cross', value: 8, error: 3 }, { name: 'back 1', value: 11, error: 2 }]; // prettier-ignore
  const props = { title: 'Length', line: 12, partner: 4, steps, words, sameFigures: 'See above.' };

  it('take in the line, the partner and every error', () => {
    expect(stepsDomain(props)).toEqual([4, 13]);
    expect(stepsDomain({ line: 0, steps: [{ name: 'cross', value: 0 }] })).toEqual([-0.5, 0.5]);
  });

  it('are told in a sentence', () => {
    expect(stepsText(props)).toBe(
      'Line 12 cm, partner 4 cm: cross 8 cm ± 3 cm, back 1 11 cm ± 2 cm.',
    );
    expect(stepsText({ ...props, steps: [{ name: 'cross', value: 0 }] })).toContain('cross 0 cm.');
  });

  it('have a mark each, and one of another kind for the partner', () => {
    const html = renderToStaticMarkup(createElement(OutcrossSteps, props));
    expect(html.match(/<circle/g)).toHaveLength(2);
    expect(html).toMatch(/class="[^"]*partner/);
    const { partner: _, ...alone } = props;
    expect(renderToStaticMarkup(createElement(OutcrossSteps, alone))).not.toMatch(/partner/);
  });
});

describe('chances of routes', () => {
  const routes = [
    { key: 'a', name: 'A × B', chance: 0.62, low: 0.58, high: 0.66 },
    { key: 'b', name: 'C × D', chance: 0, low: 0, high: 0.05 },
  ];

  it('are told in a sentence', () => {
    expect(routesText(routes)).toBe('The best of 2: A × B, 62 %, between 58 % and 66 %.');
    expect(routesText([])).toBe('No route yet.');
  });

  it('break their names between words where there is little room', () => {
    expect(linesOf('A × B, then brother × sister', 16)).toEqual([
      'A × B, then',
      'brother × sister',
    ]);
    expect(linesOf('A × B', 100)).toEqual(['A × B']);
    expect(linesOf('unbreakable', 3)).toEqual(['unbreakable']);
  });

  it('have a bar and an interval each, also where nothing was seen', () => {
    const html = renderToStaticMarkup(
      createElement(RouteChances, { title: 'Chances', routes, sameFigures: '' }),
    );
    expect(html.match(/<rect/g)).toHaveLength(2);
    expect(html).toContain('C × D');
  });
});
