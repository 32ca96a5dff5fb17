import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../../..', import.meta.url));

/** Where words for people stand: screens, messages of the API, reasons of the libs, the demo, the shell. */
const places = ['apps/viewer/src', 'apps/api/src', 'apps/shell/src', 'libs', 'db/seed/src'];

/** Words and phrases that readers stumbled over, and that must not come back. */
const stumbled: readonly RegExp[] = [
  /\bnever here\b/i,
  /\banother time\b/i,
  /\b(leaves?|leaving|left) (it |them )?out\b/i,
  /\bseen on it\b/i,
  /\bbelieved because\b/i,
  /\b(can|could|to) be told\b/i,
  /\bfor granted\b/i,
  /\bgenes are doubled\b/i,
  /\bhangs? on\b/i,
  /\blines alike\b/i,
  /\bdrop in a pairing\b/i,
  /\bpassword so far\b/i,
  /\bnothing to all\b/i,
  /\bas the device\b/i,
  /\bof late\b/i,
  /\bsame coins\b/i,
  /\btwice over\b/i,
  /\bexplains alone\b/i,
  /\bpart in all\b/i,
  /\bold fish\b/i,
  /\btaken out alive\b/i,
  /\bput down to\b/i,
  /\bcount at a locus\b/i,
  /\bglow/i,
  /\ball the same\b/i,
  /\bto mend\b|\bmend (it|them|the|what)\b/i,
  /\btells? of\b/i,
  /\bgets? nowhere\b/i,
  /\breckon(?!ing$)/i,
  /\banew\b/i,
  /\byet to come\b/i,
  /\bput down as\b/i,
  /\b(go|goes) with it\b/i,
  /\bleaned on\b/i,
  /\bstands? now\b/i,
  /\blet go of\b/i,
  /\b(it|which|that|they) (is|are) no (?!longer\b|better\b|more\b)/i,
  /” is no |^is no /i,
  /\bread wrongly\b/i,
  /\bslips? of the pen\b/i,
  /\b(left|leaves?) alive\b/i,
  /\bchance lets\b/i,
  /\bto mind\b/i,
  /\bhunted\b/i,
  /\btells? more\b/i,
  // A keeper is a fish that is kept; people are people.
  /^Keepers$/,
  /\bkeeper name\b/i,
];

function sourcesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /(?<!\.test|\.d)\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => !/node_modules|[\\/]dist[\\/]/.test(path));
}

/** Every text of a file that can reach a screen, with its line: JSX text, strings and templates, each run of blanks as one. */
function textsOf(
  path: string,
  text = readFileSync(path, 'utf8'),
): { line: number; text: string }[] {
  const kind = path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true, kind);
  const found: { line: number; text: string }[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    const said =
      ts.isJsxText(node) || ts.isStringLiteralLike(node)
        ? node.text
        : ts.isTemplateExpression(node)
          ? [node.head.text, ...node.templateSpans.map((span) => span.literal.text)].join('…')
          : null;
    if (said !== null) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      found.push({ line: line + 1, text: said.replace(/\s+/g, ' ').trim() });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const stumbledIn = (path: string, text?: string): string[] =>
  textsOf(path, text)
    .filter((each) => stumbled.some((words) => words.test(each.text)))
    .map((each) => `${relative(root, path)}:${each.line}: ${each.text}`);

describe('plain words', () => {
  it('are looked for in JSX, strings and templates, across line breaks, and not in comments', () => {
    const text = `
      // never here
      export const A = ({ n }: { n: number }) => <p title="never here">As the
        device {\`\${n} fish, never here\`}</p>;`;
    expect(stumbledIn(join(root, 'example.tsx'), text)).toEqual([
      'example.tsx:3: never here',
      'example.tsx:3: As the device',
      'example.tsx:4: … fish, never here',
    ]);
  });

  it.each(places)('stand in all of %s', (folder) => {
    const sources = sourcesUnder(folder);
    expect(sources.length).toBeGreaterThan(2);
    expect(sources.flatMap((path) => stumbledIn(path))).toEqual([]);
  });
});
