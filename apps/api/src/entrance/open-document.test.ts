import { describe, expect, it } from 'vitest';
import { asksOnlyFor, isOpenDocument } from './open-document.js';

const open = new Set(['session', 'signIn']);

describe('documents that run without a session', () => {
  it.each([
    ['the session', '{ session { signedIn person { id } } }', true],
    ['with its type', 'query Session { session { signedIn __typename } __typename }', true],
    ['signing in', 'mutation ($p: String!) { signIn(password: $p) { signedIn } }', true],
    ['anything else', '{ lines { id } }', false],
    ['the schema', '{ __schema { types { name } } }', false],
    ['a type', '{ __type(name: "Fish") { name } }', false],
    ['an alias', 'mutation { a: signIn(password: "x") { signedIn } }', false],
    ['twice', '{ session { signedIn } session { signedIn } }', false],
    ['beside another', '{ session { signedIn } lines { id } }', false],
    ['at the root in a fragment', '{ ...a } fragment a on Query { session { signedIn } }', false],
    [
      'a fragment of it',
      'query Session { session { ...Parts } } fragment Parts on Session { signedIn person { id } }',
      true,
    ],
    [
      'a fragment that holds itself',
      '{ session { ...a } } fragment a on Session { person { id } ...a }',
      false,
    ],
    ['inline', '{ ... on Query { session { signedIn } } }', false],
    ['two operations', 'query a { session { signedIn } } query b { session { signedIn } }', false],
    ['deep', `{ session ${'{ person '.repeat(9)} ${'}'.repeat(9)} }`, false],
    ['long', `{ session { ${'signedIn '.repeat(500)} } }`, false],
    ['no document', 'session', false],
    ['no text', 7, false],
  ])('%s', (_, query, expected) => {
    expect(isOpenDocument(query, open)).toBe(expected);
  });
});

describe('documents that may be as large as a file', () => {
  const files = new Set(['previewImport', 'beginImport']);
  it.each([
    ['one', 'mutation ($t: String!) { previewImport(text: $t) { problems { code } } }', true],
    ['under another name', 'mutation { a: previewImport { __typename } __typename }', true],
    ['beside something else', 'mutation { previewImport { a } createFish { id } }', false],
    ['something else under its name', 'mutation { previewImport: createFish { id } }', false],
    ['at the root in a fragment', '{ ...a } fragment a on Query { lines { id } }', false],
    ['inline', 'mutation { previewImport { a } ... on Mutation { createFish { id } } }', false],
    ['with a fragment below', 'mutation { beginImport { ...a } } fragment a on Run { id }', true],
    [
      'two operations',
      'mutation a { previewImport { a } } mutation b { createFish { id } }',
      false,
    ],
    ['no document', 'previewImport', false],
    ['no text', undefined, false],
  ])('%s', (_, query, expected) => {
    expect(asksOnlyFor(query, files)).toBe(expected);
  });
});
