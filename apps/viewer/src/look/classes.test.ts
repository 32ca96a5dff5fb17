import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const every = readdirSync(root, { recursive: true, encoding: 'utf8' });
const sheets = every.filter((path) => path.endsWith('.css'));
const own = sheets.filter((path) => path.endsWith('.module.css'));
const shared = sheets.filter((path) => !path.endsWith('.module.css'));
const code = every
  .filter((path) => /(?<!\.test|\.d)\.tsx?$/.test(path))
  .map((path) => ({ path, text: read(path) }));

const inOrder = (names: Iterable<string>): string[] => [...new Set(names)].sort();
const found = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map((match) => match[1]!);

/** Classes that a sheet gives a look to; those of others that it only names as surroundings are left out. */
const givenIn = (path: string): string[] =>
  found(
    read(path)
      .replace(/\/\*[\s\S]*?\*\//g, '')
      .replace(/:global\([^)]*\)/g, ''),
    /\.([a-zA-Z_][\w-]*)(?=[^{};]*\{)/g,
  ).filter((name) => !name.startsWith('mantine-'));

/** How a file calls a sheet of its own: `styles` for `./today.module.css`. */
const sheetsOf = ({ path, text }: { path: string; text: string }): Map<string, string> =>
  new Map(
    [...text.matchAll(/import (\w+) from '(\.[^']+\.module\.css)'/g)].map((match) => [
      match[1]!,
      normalize(join(dirname(path), match[2]!)),
    ]),
  );

/** What files take from each sheet: whole names, and beginnings such as `severity-` where the rest is told at run time. */
function takenFrom(sheet: string): { names: string[]; beginnings: string[] } {
  const names: string[] = [];
  const beginnings: string[] = [];
  for (const file of code)
    for (const [called, path] of sheetsOf(file)) {
      if (path !== sheet) continue;
      names.push(...found(file.text, new RegExp(`\\b${called}\\['([\\w-]+)'\\]`, 'g')));
      beginnings.push(...found(file.text, new RegExp(`\\b${called}\\[\`([\\w-]+-)\\$`, 'g')));
    }
  return { names, beginnings };
}

const sharedNamed = inOrder(
  code.flatMap(({ text }) => found(text, /(?<!-)\b(lw-[a-z][\w-]*)/g)),
).filter((name) => !name.endsWith('-'));

describe('classes of the style sheets', () => {
  it('reads sheets and files', () => {
    expect(own.length).toBeGreaterThan(40);
    expect(code.length).toBeGreaterThan(300);
  });

  it('are given a look in one shared sheet, not in two', () => {
    const homes = new Map<string, string[]>();
    for (const path of shared)
      for (const name of new Set(givenIn(path)))
        homes.set(name, [...(homes.get(name) ?? []), path]);
    expect([...homes].filter(([, paths]) => paths.length > 1)).toEqual([]);
  });

  it('that are shared all begin alike, are used, and those used are there', () => {
    const given = inOrder(shared.flatMap(givenIn));
    expect(given.filter((name) => !name.startsWith('lw-'))).toEqual([]);
    expect(given).toEqual(sharedNamed);
  });

  it.each(own)('%s: each class is used, and each that is used is there', (sheet) => {
    const given = inOrder(givenIn(sheet));
    const { names, beginnings } = takenFrom(sheet);
    const begun = given.filter((name) => beginnings.some((start) => name.startsWith(start)));
    expect(given).toEqual(inOrder([...names, ...begun]));
    for (const start of beginnings) expect(begun.some((name) => name.startsWith(start))).toBe(true);
  });

  it('of two sheets never come out under one name', () => {
    const names = own.map((path) => basename(path));
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });
});

/** Sheets that more than one folder takes: a look without a component of its own, with what has it. */
const TAKEN_ELSEWHERE = [
  // A choice of views, of which each screen has other ones.
  'components/view-choice.module.css',
  // What a drawing tells of the fish that was chosen in it, and its table.
  'drawings/selected.module.css',
  'drawings/table-alternative.module.css',
  // Rows of what is kept on the device.
  'outbox/waiting-list.module.css',
  // Readings and fields of water, on the panels and in the calculator.
  'panels/record-water-form.module.css',
  'panels/water-now.module.css',
];

/** What an element's own style holds beside what is computed: words and numbers written out. */
const writtenOut = (text: string): string[] =>
  found(text, /\bstyle=\{\{([^}]*)\}\}/g).flatMap((style) =>
    found(style, /([\w-]+['"]?\s*:\s*(?:['"]|-?\d)[^,]*)/g),
  );

describe('looks', () => {
  it('stand in the folder of their component, those apart that are named', () => {
    const elsewhere = code.flatMap((file) =>
      [...sheetsOf(file).values()].filter((sheet) => dirname(sheet) !== dirname(file.path)),
    );
    expect(inOrder(elsewhere)).toEqual(TAKEN_ELSEWHERE);
  });

  it('of one element hold only what is computed; the rest stands in a sheet', () => {
    const faults = code
      .filter(({ path }) => !/(^|\/)gallery\//.test(path))
      .flatMap(({ path, text }) => writtenOut(text).map((fault) => `${path}: ${fault}`));
    expect(faults).toEqual([]);
    expect(writtenOut("<p style={{ margin: 0, width: wide, fill: 'red' }}>")).toHaveLength(2);
  });
});
