import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const dist = fileURLToPath(new URL('../../apps/api/dist', import.meta.url));

it('the built server holds the one TypeORM that it uses, and loads no second from the disk', () => {
  const names = readdirSync(dist, { recursive: true }).map(String);
  const texts = names
    .filter((name) => name.endsWith('.js'))
    .map((name) => ({ name, text: readFileSync(`${dist}/${name}`, 'utf8') }));
  const having = (part: RegExp): string[] =>
    texts.filter(({ text }) => part.test(text)).map(({ name }) => name);
  expect(having(/node_modules\/typeorm\/data-source\/DataSource\.js/)).toHaveLength(1);
  expect(having(/(require[\w$]*\(|from |import\()["']typeorm["']/)).toEqual([]);
});
