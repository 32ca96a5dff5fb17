import { photoName } from '../line-file/manifest.js';
import type { ShareFile } from '../share-file.js';
import type { SharedRecord } from '../share-record.js';
import { drawnFish, parentsIn } from './drawn-fish.js';
import { type Column, escaped, table } from './html.js';
import { pedigreeSvg } from './pedigree-svg.js';

const STYLE = `
:root { color-scheme: light dark; --ink: #1b1b1b; --paper: #fff; --quiet: #666; }
@media (prefers-color-scheme: dark) { :root { --ink: #eee; --paper: #161616; --quiet: #aaa; } }
body { font: 16px/1.5 system-ui, sans-serif; color: var(--ink); background: var(--paper); margin: 1rem auto; padding: 0 1rem; max-width: 72rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: 0.9rem; }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.8rem 0.2rem 0; border-bottom: 1px solid var(--quiet); }
.quiet { color: var(--quiet); }
svg path, svg rect, svg circle { fill: none; stroke: var(--ink); stroke-width: 1.4; }
svg rect, svg circle, svg .shape { fill: var(--paper); }
svg .pair { stroke-width: 5; } svg .gap { stroke: var(--paper); stroke-width: 2.2; }
svg text { fill: var(--ink); font-size: 11px; text-anchor: middle; }
`;

/** A value, or a dash where nothing is known. */
const cell = (value: unknown): string =>
  value === null || value === undefined || value === '' ? '–' : escaped(value);

const words = (value: unknown): string => cell(value).replaceAll('_', ' ');

interface Names {
  readonly of: (id: unknown) => string;
}

const namesIn = (records: ShareFile['records']): Names => {
  const tags = new Map<unknown, unknown>(
    [...records.fish, ...records.spawns].map((record) => [record.id, record['tag']]),
  );
  return { of: (id) => cell(tags.get(id)) };
};

const picturesOf = (records: ShareFile['records']): ((id: string) => string) => {
  const standing = records.photos.filter((photo) => photo['withdrawnAt'] === null);
  return (id) =>
    standing
      .filter(
        (photo) => photo['fishId'] === id || (photo['fishId'] === null && photo['spawnId'] === id),
      )
      .map((photo, k) => {
        const name = photoName(photo['sha256'] as string, photo['mediaType'] as string);
        return `<a href="${escaped(name)}">${k + 1}</a>`;
      })
      .join(' ') || '–';
};

const fishColumns = (file: ShareFile): Column<SharedRecord>[] => {
  const { records } = file;
  const [names, parentsOf, pictures] = [namesIn(records), parentsIn(records), picturesOf(records)];
  return [
    ['Tag', (fish) => cell(fish['tag'])],
    ['Name', (fish) => cell(fish['name'])],
    ['Sex', (fish) => cell(fish['sex'])],
    ['Hatched', (fish) => cell(fish['hatchDate'])],
    ['Sire', (fish) => names.of(parentsOf(fish)[0])],
    ['Dam', (fish) => names.of(parentsOf(fish)[1])],
    ['Decided', (fish) => words(fish['disposition'])],
    ['Pictures', ({ id }) => pictures(id)],
    ['Note', (fish) => cell(fish['note'])],
  ];
};

const spawnColumns = ({ records }: ShareFile): Column<SharedRecord>[] => {
  const names = namesIn(records);
  return [
    ['Tag', (spawn) => cell(spawn['tag'])],
    ['Sire', (spawn) => names.of(spawn['sireId'])],
    ['Dam', (spawn) => names.of(spawn['damId'])],
    ['Spawned', (spawn) => cell(spawn['spawnedOn'])],
    ['Hatched', (spawn) => cell(spawn['hatchDate'])],
    ['Failed', (spawn) => (spawn['failed'] === true ? cell(spawn['failedReason'] ?? 'yes') : '–')],
    ['Note', (spawn) => cell(spawn['note'])],
  ];
};

const carePlans = ({ records }: ShareFile): string =>
  records.carePlans
    .filter((plan) => plan['withdrawnAt'] === null)
    .map((plan) =>
      table(
        `Care plan: ${String(plan['name'])}`,
        plan['steps'] as readonly { title: string; why: string; caution?: string }[],
        [
          ['Step', ({ title }) => cell(title)],
          ['Why', ({ why }) => cell(why)],
          ['Caution', ({ caution }) => cell(caution)],
        ],
      ),
    )
    .join('');

const drawing = (file: ShareFile): string => {
  const { slice, notDrawn } = drawnFish(file);
  const left =
    notDrawn === 0
      ? ''
      : `<p class="quiet">${notDrawn} more fish of the line are not drawn here; the tables below have them all.</p>`;
  return `<h2>Pedigree</h2>
<p>Squares are males, circles females, diamonds fish whose sex is not known. A double line joins parents that are related to each other.</p>
<div class="wide">${pedigreeSvg(slice)}</div>${left}\n`;
};

/**
 * A line as one HTML page without scripts, that asks for nothing from elsewhere.
 *
 * @param makerWords the words of the install that signed the file
 */
export const linePage = (file: ShareFile, makerWords: readonly string[]): string => {
  const line = file.records.lines.find(({ id }) => id === file.lineId)!;
  const title = `${String(line['code'])} · ${String(line['name'])}`;
  const standing = file.records.fish.filter((fish) => fish['withdrawnAt'] === null);
  const own = standing.filter((fish) => fish['lineId'] === file.lineId);
  const others = standing.filter((fish) => fish['lineId'] !== file.lineId);
  const spawns = file.records.spawns.filter((spawn) => spawn['withdrawnAt'] === null);
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>${escaped(title)}</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<style>${STYLE}</style></head><body>
<h1>${escaped(title)}</h1>
<p>Given by ${escaped(file.sender.name)} on ${escaped(file.exportedAt.replace('T', ', ').replace(/:\d\d\.\d+Z$/, ' UTC'))}. Whoever has this file can read all of it.</p>
<p class="quiet">Signed by the install whose words are: ${escaped(makerWords.join(' '))}. This page alone proves nothing: Linewright checks the whole file.</p>
${line['goal'] === null ? '' : `<p>Goal: ${escaped(line['goal'])}</p>`}
<p>With live fish, say what disease was seen, and keep new fish apart on arrival.</p>
${drawing(file)}${table('Fish of the line', own, fishColumns(file))}${table('Ancestors and partners outside the line', others, fishColumns(file))}${table('Spawns', spawns, spawnColumns(file))}${carePlans(file)}</body></html>
`;
};
