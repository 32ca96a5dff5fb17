import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const source = (path: string): string =>
  readFileSync(fileURLToPath(new URL(path, import.meta.url)), 'utf8');

/** A sheet without its rules for screens alone, each as deep as its braces go. */
function onPaper(css: string): string {
  let rest = css.replace(/\/\*[\s\S]*?\*\//g, '');
  for (let from = rest.indexOf('@media screen'); from >= 0; from = rest.indexOf('@media screen')) {
    let depth = 0;
    let to = rest.indexOf('{', from);
    do {
      if (rest[to] === '{') depth++;
      if (rest[to] === '}') depth--;
      to++;
    } while (depth > 0);
    rest = rest.slice(0, from) + rest.slice(to);
  }
  return rest;
}

describe('paper', () => {
  it.each(['./tokens.css', '../drawings/drawings.css'])(
    'is light whatever the screen is: dark colours of %s are for screens alone',
    (path) => {
      const css = source(path);
      expect(css).toContain('#0d1413');
      expect(onPaper(css)).not.toContain('#0d1413');
      expect(onPaper(css)).toContain('#fbfdfc');
    },
  );
});
