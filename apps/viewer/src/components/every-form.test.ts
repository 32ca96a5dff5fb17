import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const source = fileURLToPath(new URL('..', import.meta.url));

/** Where something is typed that no record comes of: it filters, reckons or prints. Or the device keeps it itself. */
const nothingToSave: Readonly<Record<string, string>> = {
  'components/choose-row.tsx': 'ticks rows',
  'frame/search.tsx': 'searches',
  'panels/brood-size-field.tsx': 'reckons',
  'panels/fry-to-raise.tsx': 'reckons',
  'panels/scan-code.tsx': 'searches',
  'screens/crosses/fit-section.tsx': 'reckons',
  'screens/fish/test-matings-panel.tsx': 'reckons',
  'screens/fish-list/fish-list-filter.tsx': 'filters',
  'screens/fish-list/seen-filter.tsx': 'filters',
  'screens/import/import-columns.tsx': 'the import screen tells of its columns',
  'screens/inheritance/brood-fields.tsx': 'reckons',
  'screens/loci/loci-screen.tsx': 'filters',
  'screens/next-pairing/outcross-section.tsx': 'filters',
  'screens/next-pairing/pairing-filter.tsx': 'filters',
  'screens/print/choice-list.tsx': 'prints',
  'screens/print/print-screen.tsx': 'prints',
  'screens/print/sheet-fields.tsx': 'prints',
  'screens/sharing/sharing-screen.tsx': 'a file, looked at before it is taken in',
  'screens/sorting/fish-card-dock.tsx': 'kept on the device as it is typed',
  'screens/sorting/score-cell.tsx': 'entered when its box is left',
  'screens/sorting/score-fields.tsx': 'kept on the device as it is typed',
  'screens/sorting/sheet-look-fields.tsx': 'kept on the device as it is typed',
  'screens/sorting/sorting-screen.tsx': 'kept on the device as it is typed',
  'screens/spawn-list/spawn-list-screen.tsx': 'filters',
  'screens/water/water-calculator.tsx': 'reckons',
};

const takesText = /<(TextInput|Textarea|PasswordInput|FileButton)\b|<input\b|type="file"/;
/** Fields of a form that stands on `RecordForm`, or a part that tells of itself. */
const tells = /\buseUnsaved\(|<RecordForm\b|\buseFormContext\b|\buseController\b|\bControl(ler)?\b/;

/** A part with the hooks of its own folder, where its thinking stands. */
function textOf(file: string): string {
  const text = readFileSync(`${source}/${file}`, 'utf8');
  const hooks = [...text.matchAll(/from '\.\/(use-[\w-]+)\.js'/g)]
    .map(([, hook]) => `${source}/${dirname(file)}/${hook}.ts`)
    .filter((hook) => existsSync(hook));
  return [text, ...hooks.map((hook) => readFileSync(hook, 'utf8'))].join('\n');
}

it('every part of the viewer that takes text tells when leaving would lose it', () => {
  const silent = readdirSync(source, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.tsx'))
    .filter((file) => {
      const text = textOf(file);
      return takesText.test(text) && !tells.test(text);
    });
  expect(silent.filter((file) => !(file in nothingToSave))).toEqual([]);
  // A part that is gone, or tells by now, leaves the list.
  expect(Object.keys(nothingToSave).filter((file) => !silent.includes(file))).toEqual([]);
});
