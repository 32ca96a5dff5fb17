import * as d3 from 'd3';
import { shorten } from '../figures.js';
import type { MapFish } from './map-fish.js';

export interface MapMeasures {
  readonly cell: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** The coancestry drawn as a full cell: the closest pair of two different fish, or of a fish with itself. */
  readonly most: number;
  readonly labelled: boolean;
}

const LEAST_CELL = 5;
const LABEL_CELL = 13;
const MOST_CELL = 26;

export function measureMap(
  fish: readonly MapFish[],
  coancestry: ArrayLike<number>,
  available: number,
): MapMeasures {
  const count = Math.max(1, fish.length);
  const longest = Math.min(14, d3.max(fish, (one) => one.tag.length) ?? 6);
  const label = longest * 6.7 + 8;
  const roomy = Math.floor((available - label) / count);
  const labelled = count <= 60 || roomy >= LABEL_CELL;
  const room = labelled ? label : 6;
  const least = labelled ? LABEL_CELL : LEAST_CELL;
  const cell = Math.min(MOST_CELL, Math.max(least, Math.floor((available - room - 2) / count)));
  let most = 0;
  for (let i = 0; i < fish.length * fish.length; i++) most = Math.max(most, coancestry[i] ?? 0);
  return {
    cell,
    left: room,
    top: room,
    width: room + cell * count + 2,
    height: room + cell * count + 2,
    most: most > 0 ? most : 1,
    labelled,
  };
}

export function cellAt(
  measures: MapMeasures,
  count: number,
  x: number,
  y: number,
): { readonly row: number; readonly column: number } | null {
  const column = Math.floor((x - measures.left) / measures.cell);
  const row = Math.floor((y - measures.top) / measures.cell);
  return row >= 0 && column >= 0 && row < count && column < count ? { row, column } : null;
}

interface Colours {
  readonly ink: string;
  readonly paper: string;
  readonly quiet: string;
  readonly line: string;
  readonly accent: string;
  readonly focus: string;
  readonly font: string;
}

function coloursOf(canvas: HTMLCanvasElement): Colours {
  const style = getComputedStyle(canvas);
  const read = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ink: read('--d-ink'),
    paper: read('--d-paper'),
    quiet: read('--d-quiet'),
    line: read('--d-line'),
    accent: read('--d-accent'),
    focus: read('--d-focus'),
    font: style.fontFamily,
  };
}

/** Draws the whole map. O(n²) cells; a map of 500 by 500 is a quarter of a million small squares. */
export function paintMap(
  canvas: HTMLCanvasElement,
  fish: readonly MapFish[],
  coancestry: ArrayLike<number>,
  measures: MapMeasures,
  chosen: { readonly row: number; readonly column: number },
): void {
  const colours = coloursOf(canvas);
  const density = Math.min(2, window.devicePixelRatio);
  canvas.width = Math.round(measures.width * density);
  canvas.height = Math.round(measures.height * density);
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  pen.scale(density, density);
  pen.fillStyle = colours.paper;
  pen.fillRect(0, 0, measures.width, measures.height);
  paintCells(pen, fish.length, coancestry, measures, colours);
  paintGroups(pen, fish, measures, colours);
  if (measures.labelled) paintLabels(pen, fish, measures, colours, chosen);
  const { cell, left, top } = measures;
  pen.strokeStyle = colours.focus;
  pen.lineWidth = 2.5;
  pen.strokeRect(left + chosen.column * cell, top + chosen.row * cell, cell, cell);
}

function paintCells(
  pen: CanvasRenderingContext2D,
  count: number,
  coancestry: ArrayLike<number>,
  measures: MapMeasures,
  colours: Colours,
): void {
  const { cell, left, top, most } = measures;
  const pale = d3.interpolateLab(colours.paper, colours.accent)(0.5);
  const shade: (at: number) => string = d3.piecewise<string>(d3.interpolateLab, [
    pale,
    colours.accent,
    colours.ink,
  ]);
  const shades = d3.range(33).map((i) => shade(i / 32));
  for (let row = 0; row < count; row++) {
    for (let column = 0; column < count; column++) {
      const value = (coancestry[row * count + column] ?? 0) / most;
      // Area stands for the value, so that the map reads without its shades.
      const side = value <= 0 ? 1 : Math.max(1.5, Math.sqrt(value) * (cell - 1));
      pen.fillStyle = value <= 0 ? colours.quiet : shades[Math.round(value * 32)]!;
      const inset = (cell - side) / 2;
      pen.fillRect(left + column * cell + inset, top + row * cell + inset, side, side);
    }
  }
}

function paintGroups(
  pen: CanvasRenderingContext2D,
  fish: readonly MapFish[],
  measures: MapMeasures,
  colours: Colours,
): void {
  const { cell, left, top } = measures;
  const size = fish.length * cell;
  pen.strokeStyle = colours.quiet;
  pen.lineWidth = 1;
  pen.strokeRect(left, top, size, size);
  for (let i = 1; i < fish.length; i++) {
    if ((fish[i]!.group ?? null) === (fish[i - 1]!.group ?? null)) continue;
    pen.beginPath();
    pen.moveTo(left + i * cell, top);
    pen.lineTo(left + i * cell, top + size);
    pen.moveTo(left, top + i * cell);
    pen.lineTo(left + size, top + i * cell);
    pen.stroke();
  }
}

function paintLabels(
  pen: CanvasRenderingContext2D,
  fish: readonly MapFish[],
  measures: MapMeasures,
  colours: Colours,
  chosen: { readonly row: number; readonly column: number },
): void {
  const { cell, left, top } = measures;
  pen.font = `11.5px ${colours.font}`;
  pen.textBaseline = 'middle';
  fish.forEach((one, i) => {
    const text = shorten(one.tag, 14);
    const middle = (i + 0.5) * cell;
    pen.fillStyle = i === chosen.row ? colours.focus : colours.ink;
    pen.textAlign = 'right';
    pen.fillText(text, left - 5, top + middle);
    pen.fillStyle = i === chosen.column ? colours.focus : colours.ink;
    pen.save();
    pen.translate(left + middle, top - 5);
    pen.rotate(-Math.PI / 2);
    pen.textAlign = 'left';
    pen.fillText(text, 0, 0);
    pen.restore();
  });
}
