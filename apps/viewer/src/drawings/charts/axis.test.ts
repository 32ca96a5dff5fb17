import * as d3 from 'd3';
import { createElement, Fragment } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { LevelAxis, UprightAxis } from './axis.js';
import { plotArea, ticksOf } from './plot-area.js';

const area = plotArea(400, 200, { top: 30, right: 10, bottom: 40, left: 50 });

describe('the axes of a plot', () => {
  it('lie at the edges of what is left beside the margins', () => {
    expect(area).toMatchObject({ left: 50, right: 390, top: 30, bottom: 160 });
  });

  it('put each figure where the scale has it', () => {
    const x = d3.scaleLinear([0, 10], [area.left, area.right]);
    expect(ticksOf(x, 2, (value) => `${value} d`)).toEqual([
      { at: 50, text: '0 d' },
      { at: 220, text: '5 d' },
      { at: 390, text: '10 d' },
    ]);
  });

  it('write figures and names clear of each other and within the drawing', () => {
    const html = renderToStaticMarkup(
      createElement(
        Fragment,
        null,
        createElement(UprightAxis, { area, ticks: [{ at: area.top, text: '1' }], name: 'mg/L' }),
        createElement(LevelAxis, { area, ticks: [{ at: 220, text: '5' }], name: 'days' }),
      ),
    );
    const yOf = (text: string): number =>
      Number(new RegExp(`y="([\\d.]+)"[^>]*>${text}<`).exec(html)?.[1]);
    const line = 12;
    // The topmost figure hangs 4 px below its place.
    expect(area.top + 4 - yOf('mg/L')).toBeGreaterThanOrEqual(line);
    expect(yOf('mg/L')).toBeGreaterThanOrEqual(line);
    expect(yOf('5')).toBeGreaterThanOrEqual(area.bottom + line);
    expect(yOf('days') - yOf('5')).toBeGreaterThanOrEqual(line);
    expect(yOf('days')).toBeLessThanOrEqual(area.height - 4);
  });

  it('draw lines up from a level axis only where they are asked for', () => {
    const linesOf = (lines: boolean): number =>
      renderToStaticMarkup(
        createElement(LevelAxis, { area, ticks: [{ at: 60, text: '1' }], lines }),
      ).split('<line').length - 1;
    expect([linesOf(true), linesOf(false)]).toEqual([1, 0]);
  });
});
