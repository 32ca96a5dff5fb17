import { readFileSync } from 'node:fs';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { layoutPedigree, traceHighlight, type SliceFish } from '@linewright/pedigree-layout';
import { describe, expect, it } from 'vitest';
import { ClassBars } from './charts/class-bars.js';
import { FounderShares } from './charts/founder-shares.js';
import { GenerationPlot } from './charts/generation-plot.js';
import { PunnettSquare } from './charts/punnett-square.js';
import { cellAt, measureMap } from './charts/relationship-map-paint.js';
import { RelationshipMap } from './charts/relationship-map.js';
import { SurvivalSteps } from './charts/survival-steps.js';
import { coefficient, expectedCount, percent, roman } from './figures.js';
import { highlightLines, roundedPath } from './pedigree/line-paths.js';
import { PedigreeDrawing } from './pedigree/pedigree-drawing.js';
import type { PedigreeDrawingProps, PedigreeFish } from './pedigree/types.js';

const fish = (
  id: string,
  sex: PedigreeFish['sex'],
  sireId: string | null = null,
  damId: string | null = null,
  inbreeding = 0,
): PedigreeFish => ({ id, tag: id.toUpperCase(), sex, sireId, damId, inbreeding });

const sibMating = [
  fish('a', 'male'),
  fish('b', 'female'),
  fish('c', 'male', 'a', 'b'),
  fish('d', 'female', 'a', 'b'),
  fish('e', 'unknown', 'c', 'd', 0.25),
];

const draw = (more: Partial<PedigreeDrawingProps> = {}): string =>
  renderToStaticMarkup(
    createElement(PedigreeDrawing, {
      fish: sibMating,
      focusId: 'e',
      onOpenFish: () => undefined,
      ...more,
    }),
  );

describe('figures', () => {
  it('reads coefficients, shares, counts and generations', () => {
    expect([0, 0.25, 0.0001, 0.375].map(coefficient)).toEqual([
      '0 %',
      '25.0 %',
      '<0.1 %',
      '37.5 %',
    ]);
    expect([0.5, 0.041].map(percent)).toEqual(['50 %', '4.1 %']);
    expect([12, 12.25].map(expectedCount)).toEqual(['12', '12.3']);
    expect([1, 4, 9, 14, 40].map(roman)).toEqual(['I', 'IV', 'IX', 'XIV', 'XL']);
  });
});

describe('PedigreeDrawing', () => {
  it('names every fish with sex, F and parents, and makes one of them the tab stop', () => {
    const html = draw();
    expect(html).toContain('aria-label="E, sex unknown, F 25.0 %, generation III, sire C, dam D"');
    expect(html.match(/data-node=/g)).toHaveLength(5);
    expect(html.match(/data-node="[^"]*" tabindex="0"/g)).toEqual(['data-node="e" tabindex="0"']);
  });

  it('numbers the steps of a highlighted path and says it in words', () => {
    const html = draw({ highlightedPath: ['c', 'a', 'd'] });
    expect(html.match(/path-line/g)!.length).toBeGreaterThan(2);
    expect(html).toContain('(common ancestor)');
    expect(html).toMatch(/<text y="4" text-anchor="middle">2<\/text>/);
    expect(draw()).not.toContain('path-line');
  });

  it('drops in a planned brood, which cannot be opened', () => {
    const planned = { sireId: 'c', damId: 'd', label: 'planned', inbreeding: 0.25 };
    const html = draw({ planned: [planned] });
    // In the standard nomenclature n is a number not known, and P a pregnancy.
    expect(html).toMatch(/class="[^"]*glyph[^"]*"[^>]*>n</);
    expect(html).not.toMatch(/class="[^"]*glyph[^"]*"[^>]*>P</);
    expect(html).toContain('planned, planned brood, F 25.0 %');
    expect(draw()).not.toContain('planned brood');
  });

  it('names both parents of a planned brood in full, one below the other', () => {
    const planned = { sireId: 'c', damId: 'd', label: 'RB26-01-03 × RB26-02-05', inbreeding: 0 };
    const html = draw({ planned: [planned] });
    expect(html).toMatch(/>RB26-01-03 ×<\/text>.*>RB26-02-05<\/text>/);
    expect(html).not.toContain('…');
  });

  it('goes on from one planned brood to the next, with lines of its own kind', () => {
    const cross = { id: 'x', sireId: 'c', damId: 'b', label: 'cross', inbreeding: 0.25 };
    const back = { id: 'y', sireId: 'c', damId: 'x', label: 'back', inbreeding: 0.375 };
    const html = draw({ focusId: 'c', scope: 'all', planned: [cross, back] });
    expect(html).toContain('back, planned brood, F 37.5 %, generation IV, sire C, dam cross');
    const dotted = /<g class="[^"]*link-planned[^"]*"><path[^>]* d="([^"]+)"/.exec(html)?.[1];
    expect(dotted).toMatch(/^M/);
    const [stage] = draw().split('Symbols and keys');
    expect(stage).not.toMatch(/link-planned[^"]*"><path[^>]* d="M/);
  });
});

describe('lines', () => {
  it('rounds turns and leaves straight ends alone', () => {
    const path = roundedPath([
      { x: 0, y: 0 },
      { x: 0, y: 20 },
      { x: 30, y: 20 },
    ]);
    expect(path).toBe('M0 0L0 14Q0 20 6 20L30 20');
  });

  it('inks no run of a highlighted path twice', () => {
    const slice: readonly SliceFish[] = sibMating;
    const scene = layoutPedigree(slice, { focusId: 'e' });
    const steps = highlightLines(scene, traceHighlight(scene, ['c', 'a', 'd'], 'e'));
    const starts = steps.map((step) => step.path).filter((path) => path !== '');
    expect(new Set(starts).size).toBe(starts.length);
    expect(steps.map((step) => step.number).filter((number) => number > 0)).toEqual([1, 2]);
  });
});

describe('ClassBars', () => {
  it('shows the exact share, the expected and the observed count', () => {
    const html = renderToStaticMarkup(
      createElement(ClassBars, {
        broodSize: 50,
        classes: [
          { id: 'x', label: 'steel', fraction: '1/4', probability: 0.25, observed: 9 },
          { id: 'y', label: 'other', fraction: '3/4', probability: 0.75, observed: null },
        ],
      }),
    );
    expect(html).toContain(
      '<td class="lw-drawing-number">1/4</td><td class="lw-drawing-number">12.5</td>',
    );
    expect(html).toContain('<td class="lw-drawing-number">9</td>');
    expect(html).toContain('<td class="lw-drawing-number">–</td>');
  });
});

describe('PunnettSquare', () => {
  it('gives each class a letter as well as a pattern', () => {
    const gametes = ['D', 'd'].map((label) => ({ label, fraction: '1/2' }));
    const html = renderToStaticMarkup(
      createElement(PunnettSquare, {
        sire: { tag: 'S', gametes },
        dam: { tag: 'T', gametes },
        cells: [
          [
            { genotype: 'DD', classId: 'n' },
            { genotype: 'Dd', classId: 'n' },
          ],
          [
            { genotype: 'Dd', classId: 'n' },
            { genotype: 'dd', classId: 'r' },
          ],
        ],
        classes: [
          { id: 'n', label: 'dominant', fraction: '3/4' },
          { id: 'r', label: 'recessive', fraction: '1/4' },
        ],
      }),
    );
    expect(html.match(/<b>A<\/b>/g)).toHaveLength(4);
    expect(html.match(/<b>B<\/b>/g)).toHaveLength(2);
  });
});

describe('FounderShares', () => {
  it('pools small founders and shows what is of unknown origin', () => {
    const html = renderToStaticMarkup(
      createElement(FounderShares, {
        founders: ['p', 'q', 'r'].map((id) => ({ id, tag: id })),
        generations: [
          { label: '0', shares: [0.5, 0.3, 0.2] },
          { label: '1', shares: [0.5, 0.2, 0.1] },
        ],
        largest: 1,
      }),
    );
    expect(html).toContain('2 others');
    expect(html).toContain('unknown, generation 1: 20 %');
    expect(html).not.toContain('unknown, generation 0');
  });

  it('names one founder left over in the singular', () => {
    const html = renderToStaticMarkup(
      createElement(FounderShares, {
        founders: ['p', 'q'].map((id) => ({ id, tag: id })),
        generations: [{ label: '0', shares: [0.7, 0.3] }],
        largest: 1,
      }),
    );
    expect(html).toContain('1 other');
    expect(html).not.toContain('1 others');
  });
});

describe('the symbols of a pedigree', () => {
  const sheet = readFileSync(new URL('./pedigree/pedigree.module.css', import.meta.url), 'utf8');

  it('are neither filled nor dotted, which would mean affected or a carrier', () => {
    const fills = [...sheet.matchAll(/([^{}]*)\{([^}]*)\}/g)]
      .filter(([, selector]) => /\.symbol\b/.test(selector!))
      .flatMap(([, , rules]) => [...rules!.matchAll(/\bfill: ([^;]+);/g)].map(([, fill]) => fill));
    expect(fills).toEqual(['var(--d-paper)']);
    // The fish in focus is of unknown sex: its sign is a question mark, and an arrow points to it.
    const html = draw();
    expect(html).toMatch(/class="[^"]*glyph[^"]*"[^>]*>\?</);
    expect(html.match(/<path class="[^"]*focus-arrow/g)).toHaveLength(2);
  });
});

describe('GenerationPlot', () => {
  const html = renderToStaticMarkup(
    createElement(GenerationPlot, {
      points: [
        { id: 'a', tag: 'A', generation: 0, inbreeding: 0 },
        { id: 'b', tag: 'B', generation: 1, inbreeding: 0.375 },
      ],
      guides: [
        { at: 0.125, label: 'half sibs' },
        { at: 0.25, label: 'full sibs' },
      ],
      width: 600,
      height: 300,
    }),
  );

  it('names its guides in percent, as its axis does', () => {
    expect(html).toContain('12.5 % half sibs');
    expect(html).toContain('25 % full sibs');
    expect(html).not.toContain('0.25');
  });

  it('tells an F with fish of unknown origin behind it from one that is known', () => {
    const marked = renderToStaticMarkup(
      createElement(GenerationPlot, {
        points: [
          { id: 'a', tag: 'A', generation: 0, inbreeding: 0, basis: 'unknown' },
          { id: 'b', tag: 'B', generation: 1, inbreeding: 0.25, basis: 'at-least' },
          { id: 'c', tag: 'C', generation: 2, inbreeding: 0.375, basis: 'known' },
        ],
        width: 600,
        height: 300,
      }),
    );
    expect(marked).toContain('A: F not known');
    expect(marked).toContain('B: F ≥ 25.0 %');
    expect(marked).toContain('C: F 37.5 %');
    expect(marked.match(/point-least/g)).toHaveLength(2);
    expect(marked).toContain('they are this or more');
    expect(html).not.toMatch(/≥|point-least|this or more/);
  });

  it('keeps the name of the axis clear of its topmost figure', () => {
    const name = Number(/y="([\d.]+)"[^>]*>F</.exec(html)?.[1]);
    const [top] = [...html.matchAll(/translate\(0 ([\d.]+)\)/g)]
      .map(([, y]) => Number(y))
      .sort((a, b) => a - b);
    // A line of 12 px letters below the name, and the figure hangs 4 px below its place.
    expect(top! + 4 - name).toBeGreaterThanOrEqual(14);
  });
});

describe('SurvivalSteps', () => {
  it('compares with the last stage counted, across one that was not', () => {
    const html = renderToStaticMarkup(
      createElement(SurvivalSteps, {
        stages: [
          { id: 'e', label: 'Eggs', count: 200 },
          { id: 'h', label: 'Hatched', count: null },
          { id: 'j', label: 'Jarred', count: 50 },
        ],
      }),
    );
    expect(html).toContain('not counted');
    expect(html.match(/25 %/g)).toHaveLength(2);
  });
});

describe('relationship map', () => {
  const three = ['a', 'b', 'c'].map((id) => ({ id, tag: id, sex: 'male' as const }));

  it('finds the cell under a point, and none outside', () => {
    const measures = measureMap(three, [0.5, 0, 0, 0, 0.5, 0.25, 0, 0.25, 0.5], 600);
    const inside = measures.left + 1.5 * measures.cell;
    expect(cellAt(measures, 3, inside, measures.top + 2)).toEqual({ row: 0, column: 1 });
    expect(cellAt(measures, 3, measures.left - 1, inside)).toBeNull();
    expect(cellAt(measures, 3, measures.left + 3 * measures.cell + 1, inside)).toBeNull();
    expect(measures.most).toBe(0.5);
  });
});

describe('relationship map', () => {
  const told = (originKnown: boolean): string =>
    renderToStaticMarkup(
      createElement(RelationshipMap, {
        fish: [
          { id: 'a', tag: 'A-1', sex: 'male', originKnown: true },
          { id: 'b', tag: 'B-1', sex: 'female', originKnown },
        ],
        coancestry: [0.5, 0.25, 0.25, 0.5],
        title: 'Coancestry',
      }),
    );

  it('tells a coancestry with fish of unknown origin behind it as a lowest value, and a known one not', () => {
    expect(told(false)).toContain('or more (fish of unknown origin are behind it)');
    expect(told(true)).toContain('A-1');
    expect(told(true)).not.toContain('or more');
  });
});
