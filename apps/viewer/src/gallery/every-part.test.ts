import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { allParts } from './all-parts.js';

const source = fileURLToPath(new URL('..', import.meta.url));
const filesOf = (room: string): string[] =>
  readdirSync(`${source}/${room}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.tsx'))
    .map((file) => readFileSync(`${source}/${room}/${file}`, 'utf8'));

/** Components that other rooms may take from a room. */
const componentsOf = (room: string): string[] =>
  filesOf(room).flatMap((text) =>
    [...text.matchAll(/^export function ([A-Z]\w*)\b/gm)].map(([, name]) => name!),
  );

const drawn = (room: string): Set<string> =>
  new Set(
    filesOf(room).flatMap((text) => [...text.matchAll(/<([A-Z]\w*)/g)].map(([, name]) => name!)),
  );

/** What the page cannot show, and why. */
const left: Readonly<Record<string, string>> = {
  KeptOnDevice: 'reads what this device keeps',
  KeptBenches: 'reads what this device keeps',
};

describe('the pages of the viewer’s parts', () => {
  it.each(['components', 'panels', 'pickers'])('show every component of %s', (room) => {
    const components = componentsOf(room);
    expect(components.length).toBeGreaterThan(3);
    expect(components.filter((name) => !(name in allParts) && !(name in left))).toEqual([]);
  });

  it('show each under its own name, and none that is no longer there', () => {
    const there = ['components', 'panels', 'pickers'].flatMap(componentsOf);
    expect(Object.keys(allParts).filter((name) => !there.includes(name))).toEqual([]);
    expect(Object.keys(left).filter((name) => !there.includes(name))).toEqual([]);
    const onThePage = drawn('gallery');
    expect(Object.keys(allParts).filter((name) => !onThePage.has(name))).toEqual([]);
  });

  it('show every drawing', () => {
    const index = readFileSync(`${source}/drawings/index.ts`, 'utf8').replace(
      /export type \{[^}]*\}/g,
      '',
    );
    const drawings = [...index.matchAll(/(?<!type )\b([A-Z]\w*)(?=[ ,}\n])/g)].map(
      ([, name]) => name!,
    );
    expect(drawings).toContain('PedigreeDrawing');
    const inTheGallery = drawn('drawings/gallery');
    expect(drawings.filter((name) => !inTheGallery.has(name))).toEqual([]);
  });
});
