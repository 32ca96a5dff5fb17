/**
 * How long functions are, room by room: how many, median, 90th percentile, how many over 60 lines, the longest.
 * Named functions count (declarations, methods, arrows given a name); a function inside another counts in both.
 *
 *     node tests/sizes/function-lengths.mjs [folder ...]     --over 60 lists each longer one
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

const words = process.argv.slice(2);
const overAt = words.indexOf('--over');
const over = overAt === -1 ? undefined : Number(words[overAt + 1]);
const named = words.filter((_, at) => overAt === -1 || (at !== overAt && at !== overAt + 1));
const folders = named.length > 0 ? named : ['libs', 'apps/api/src', 'apps/viewer/src'];

const sourcesUnder = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /(?<!\.test|\.d)\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => !/\/(dist|node_modules|examples)\//.test(path));

const isFunction = (node) =>
  ts.isFunctionDeclaration(node) ||
  ts.isMethodDeclaration(node) ||
  ts.isConstructorDeclaration(node) ||
  ((ts.isArrowFunction(node) || ts.isFunctionExpression(node)) &&
    ts.isVariableDeclaration(node.parent));

const nameOf = (node) =>
  (node.name ?? node.parent.name)?.getText() ??
  (ts.isConstructorDeclaration(node) ? 'constructor' : '?');

function functionsOf(path) {
  const kind = path.endsWith('.tsx') ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(
    path,
    readFileSync(path, 'utf8'),
    ts.ScriptTarget.Latest,
    true,
    kind,
  );
  const lineOf = (at) => source.getLineAndCharacterOfPosition(at).line;
  const found = [];
  const visit = (node) => {
    if (isFunction(node) && node.body !== undefined)
      found.push({
        path,
        line: lineOf(node.getStart()) + 1,
        name: nameOf(node),
        lines: lineOf(node.end) - lineOf(node.getStart()) + 1,
      });
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const at = (sorted, share) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];

for (const folder of folders) {
  const functions = sourcesUnder(folder).flatMap(functionsOf);
  const lengths = functions.map((each) => each.lines).sort((a, b) => a - b);
  process.stdout.write(
    `${folder}: ${lengths.length} functions, median ${at(lengths, 0.5)}, 90th percentile ${at(lengths, 0.9)}, ` +
      `${lengths.filter((lines) => lines > 60).length} over 60, longest ${lengths.at(-1)}\n`,
  );
  if (over === undefined) continue;
  for (const each of functions
    .filter((each) => each.lines > over)
    .sort((a, b) => b.lines - a.lines))
    process.stdout.write(`  ${each.lines}  ${each.path}:${each.line}  ${each.name}\n`);
}
