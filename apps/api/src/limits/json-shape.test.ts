import { describe, expect, it } from 'vitest';
import { isWithin } from './json-shape.js';

const within = (json: string): boolean => isWithin(Buffer.from(json), { depth: 3, parts: 10 });

describe('bounds of a JSON text', () => {
  it.each([
    ['a small one', '{"query":"{ a }","variables":{"input":{"a":1}}}', true],
    ['marks inside a text', `{"text":"${'[{,:'.repeat(50)}"}`, true],
    ['quotes inside a text', '{"text":"\\"[[[[[[\\\\\\"{{{{"}', true],
    ['a text that ends in a backslash', '{"a":"\\\\","b":[[[[1]]]]}', false],
    ['too deep', '[[[[1]]]]', false],
    ['as deep as may be', '[[[1]]]', true],
    ['beside one another', '[[],[],[]]', true],
    ['too many parts', '[1,1,1,1,1,1,1,1,1,1,1,1]', false],
    ['a text without an end', '{"a":"[[[[', true],
    ['58 KB of brackets', '['.repeat(58_000), false],
  ])('%s', (_, json, expected) => {
    expect(within(json)).toBe(expected);
  });
});
