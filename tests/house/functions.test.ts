import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const LONGEST = 60;

const sources = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter(
      (path) => /(?<!\.d|\.test)\.tsx?$/.test(path) && !/(^|\/)(dist|node_modules)\//.test(path),
    )
    .map((path) => join(folder, path));

/** Functions with a name of their own: what is handed over on the spot is part of the function around it. */
const isNamed = (node: ts.Node): node is ts.FunctionLikeDeclaration =>
  ts.isFunctionLike(node) &&
  'body' in node &&
  node.body !== undefined &&
  (!(ts.isArrowFunction(node) || ts.isFunctionExpression(node)) ||
    ts.isVariableDeclaration(node.parent));

/** Each with its place and its lines. */
const functionsIn = (name: string, text: string): { place: string; lines: number }[] => {
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true);
  const found: { place: string; lines: number }[] = [];
  const visit = (node: ts.Node): void => {
    if (isNamed(node)) {
      const [first, last] = [node.getStart(file), node.end].map(
        (at) => file.getLineAndCharacterOfPosition(at).line,
      );
      found.push({ place: `${name}:${first! + 1}`, lines: last! - first! + 1 });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
};

describe('functions', () => {
  it('are found with their length, as declarations, methods and values', () => {
    const text =
      'function a() {\n}\nclass B {\n  c() {\n    return 1;\n  }\n}\nconst d = () =>\n  2;\n';
    expect(functionsIn('x.ts', text).map(({ lines }) => lines)).toEqual([2, 3, 2]);
  });

  it.each(['libs', 'db', 'apps'])(`of %s have at most ${LONGEST} lines`, (folder) => {
    const all = sources(folder).flatMap((path) =>
      functionsIn(path, readFileSync(join(root, path), 'utf8')),
    );
    expect(all.length).toBeGreaterThan(200);
    expect(all.filter(({ lines }) => lines > LONGEST)).toEqual([]);
  });
});
