import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const folder = new URL('../../docs/methods/', import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const sources = read('sources.md');
/** Pages that give the whole reference where they cite. */
const inFull = new Set(['sources.md', 'care-calendar.md', 'pedigree-drawing.md', 'water.md']);
const pages = readdirSync(folder).filter((name) => name.endsWith('.md') && !inFull.has(name));

/** `Lacy 1989`, `Kaplan and Meier (1958`, `Monson & Sadler 2010`: the first author and the year. */
const CITED =
  /([A-Z][\p{L}]+)(?:'s)?(?: [A-Z]{1,3})?(?:(?:, | & | and )[A-Z][\p{L}-]+(?: [A-Z]{1,3})?)*(?: et al\.)?,? \(?(1[89]\d\d|20[0-2]\d)\b/gu;

describe('short citations of the methods', () => {
  it.each(pages)('%s: each stands in full among the sources', (name) => {
    const text = read(name)
      .replace(/```[\s\S]*?```/g, '')
      .replace(/\s+/g, ' ');
    const entries = sources.split('\n- ');
    const unknown = [...text.matchAll(CITED)].flatMap(([whole, author, year]) =>
      entries.some((entry) => entry.includes(author!) && entry.includes(`(${year})`))
        ? []
        : [whole],
    );
    expect(unknown).toEqual([]);
  });

  it('each entry has author, year, title and a basis', () => {
    const entries = sources
      .split('\n- ')
      .slice(1)
      .map((entry) => entry.split('\n\n')[0]!.replace(/\s+/g, ' '));
    expect(entries.length).toBeGreaterThan(40);
    for (const entry of entries) {
      expect(entry).toMatch(/^[\p{Lu}][^(]+ \(\d{4}\) .{8,}\. .+/u);
      expect(entry).toMatch(/from memory|Checked|Abstract read|As cited/i);
    }
  });
});
