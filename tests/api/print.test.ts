import { createRequire } from 'node:module';
import { mkdirSync, writeFileSync } from 'node:fs';
import { type Canvas, GlobalFonts, createCanvas } from '@napi-rs/canvas';
import { type LabelSheet, labelPlaces, pageSizes, plainGrids } from '@linewright/care';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mottled } from '../mottled-locus.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';
import { type Area, type PrintedPage, type PrintedText, readPdf } from './read-pdf.js';

const POINTS = 72 / 25.4;
const ADDRESS = 'http://192.168.1.20:4700';

interface Fish {
  readonly id: string;
  readonly tag: string;
  readonly sex: string;
  readonly hatchDate: string;
  readonly spawn: { readonly id: string; readonly tag: string };
  readonly line: { readonly id: string; readonly code: string };
}

const { resolve } = createRequire(new URL('../../apps/api/src/main.ts', import.meta.url));
const SCALE = 8;
const fontFiles = {
  wide: 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf',
  thai: '@fontsource/noto-sans-thai/files/noto-sans-thai-thai-400-normal.woff',
};

/** The window around a line of text. */
const around = ({ x, y, width, size }: PrintedText): Area => ({
  x: x - 1,
  y: y - size * 0.28,
  width: width + 2,
  height: size * 1.5,
});

/** Where ink is in a window of a page, given what is drawn there. */
const inkOf = (canvas: Canvas): boolean[] => {
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  return Array.from({ length: canvas.width * canvas.height }, (_, i) => data[4 * i]! < 128);
};

/** Words set by the canvas itself on white, where a line of text stands in its window. */
const setThere = (text: PrintedText, words: string, font: string): Canvas => {
  const { x, y, width, height } = around(text);
  const canvas = createCanvas(Math.ceil(width * SCALE), Math.ceil(height * SCALE));
  const context = canvas.getContext('2d');
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.fillStyle = '#000';
  context.translate(-x * SCALE, -y * SCALE);
  context.font = `${text.size * SCALE}px "${font}"`;
  context.fillText(words, text.x * SCALE, (text.y + text.size * 0.78) * SCALE);
  return canvas;
};

/** Share of the ink of two pictures that is in both. */
const shared = (a: readonly boolean[], b: readonly boolean[]): number => {
  const both = a.filter((ink, i) => ink && b[i]).length;
  return both / a.filter((ink, i) => ink || b[i]).length;
};

/** Shares of ink that a line of a PDF has in common with each of some words, set by another program with the whole font. */
const sharedWith = async (
  page: PrintedPage,
  text: PrintedText,
  font: keyof typeof fontFiles,
  all: readonly string[],
): Promise<number[]> => {
  GlobalFonts.registerFromPath(resolve(fontFiles[font]), `test ${font}`);
  const printed = inkOf(await page.draw(SCALE, around(text)));
  return all.map((words) => shared(printed, inkOf(setThere(text, words, `test ${font}`))));
};

describe('labels and cards', () => {
  let api: RunningApi;
  let fish: Fish[];
  beforeAll(async () => {
    api = await startApi({ demo: true });
    const { fishList } = await api.graphql<{ fishList: { edges: { node: Fish }[] } }>(
      `{ fishList(filter: { inUse: true }, sort: { field: HATCH_DATE, direction: DESC }, first: 30) { edges { node {
        id tag sex hatchDate spawn { id tag } line { id code } } } } }`,
    );
    fish = fishList.edges.map(({ node }) => node);
  });
  afterAll(() => api.close());

  const pdf = async (path: string): Promise<PrintedPage[]> => {
    const response = await api.http(path);
    expect(response.status, path).toBe(200);
    expect(response.headers.get('content-type')).toContain('application/pdf');
    const bytes = new Uint8Array(await response.arrayBuffer());
    const folder = process.env['WRITE_PDF'];
    const pages = await readPdf(bytes.slice());
    if (folder !== undefined) {
      mkdirSync(folder, { recursive: true });
      const name = path.replace(/^.*\/(.*)\.pdf.*$/, '$1');
      writeFileSync(
        `${folder}/${name}-${pages.length}-${pages[0]!.texts.length}.png`,
        (await pages[0]!.draw(2)).toBuffer('image/png'),
      );
    }
    return pages;
  };
  const refused = async (path: string): Promise<string> => {
    const response = await api.http(path);
    expect(response.status, path).toBe(400);
    return ((await response.json()) as { message: string }).message;
  };
  const labelsPath = (some: readonly Fish[], more = ''): string =>
    `/export/print/jar-labels.pdf?fish=${some.map(({ id }) => id).join(',')}&address=${encodeURIComponent(ADDRESS)}${more}`;

  /** Every text lies inside exactly one label's place, on its own page. */
  const expectInside = (
    pages: PrintedPage[],
    sheet: LabelSheet,
    number: number,
    skip = 0,
  ): void => {
    const places = labelPlaces(sheet, number, skip);
    pages.forEach((page, at) => {
      const size = pageSizes[sheet.page];
      expect(page.width).toBeCloseTo(size.width * POINTS, 1);
      expect(page.height).toBeCloseTo(size.height * POINTS, 1);
      for (const text of page.texts) {
        const within = places.filter(
          (place) =>
            place.page === at &&
            text.x >= place.x * POINTS &&
            text.y >= place.y * POINTS - 0.5 &&
            text.x + text.width <= (place.x + place.width) * POINTS + 0.5 &&
            text.y + text.size <= (place.y + place.height) * POINTS + 0.5,
        );
        expect(within, `${text.words} at ${text.x}, ${text.y}`).toHaveLength(1);
      }
    });
  };

  it('prints a jar label for each fish: tag, sex, hatch date, line, and a code that opens the fish', async () => {
    const sheet = plainGrids.find(({ id }) => id === 'A4-3x8')!.sheet;
    const some = fish.slice(0, 30);
    const pages = await pdf(labelsPath(some));
    expect(pages).toHaveLength(2);
    expectInside(pages, sheet, some.length);
    for (const [i, place] of labelPlaces(sheet, some.length).entries()) {
      const one = some[i]!;
      const page = pages[place.page]!;
      const here = page.texts
        .filter(
          ({ x, y }) =>
            x >= place.x * POINTS &&
            x < (place.x + place.width) * POINTS &&
            y >= place.y * POINTS - 0.5 &&
            y < (place.y + place.height) * POINTS,
        )
        .map(({ words }) => words);
      expect(here).toContain(one.tag);
      expect(here).toContain(one.sex === 'UNCERTAIN' ? 'sex uncertain' : one.sex.toLowerCase());
      expect(here).toContain(`hatched ${one.hatchDate}`);
      expect(here.join(' ')).toContain(`line ${one.line.code}`);
    }
    for (const i of [0, 13, 29]) {
      const place = labelPlaces(sheet, some.length)[i]!;
      const area = {
        x: place.x * POINTS,
        y: place.y * POINTS,
        width: place.width * POINTS,
        height: place.height * POINTS,
      };
      expect(await pages[place.page]!.code(area)).toBe(`${ADDRESS}/fish/${some[i]!.id}`);
    }
  });

  it('takes a sheet’s own measures, on Letter, from the fourth place on', async () => {
    const sheet: LabelSheet = {
      page: 'LETTER',
      rows: 10,
      columns: 3,
      labelWidth: 66,
      labelHeight: 25,
      marginTop: 12,
      marginLeft: 5,
      gapX: 3,
      gapY: 0.5,
    };
    const measures = Object.entries(sheet)
      .map(([name, value]) => `&${name}=${value}`)
      .join('');
    const pages = await pdf(labelsPath(fish.slice(0, 3), `${measures}&start=4`));
    expectInside(pages, sheet, 3, 3);
    const first = labelPlaces(sheet, 3, 3)[0]!;
    const area = {
      x: first.x * POINTS,
      y: first.y * POINTS,
      width: first.width * POINTS,
      height: first.height * POINTS,
    };
    expect(await pages[0]!.code(area)).toBe(`${ADDRESS}/fish/${fish[0]!.id}`);
  });

  it('prints the fish still here of a spawn or a line', async () => {
    const [one] = fish;
    const ofSpawn = await pdf(
      `/export/print/jar-labels.pdf?spawn=${one!.spawn.id}&address=${ADDRESS}`,
    );
    expect(ofSpawn[0]!.texts.map(({ words }) => words)).toContain(one!.tag);
    const ofLine = await pdf(
      `/export/print/jar-labels.pdf?line=${one!.line.id}&address=${ADDRESS}`,
    );
    expect(ofLine[0]!.texts.length).toBeGreaterThan(20);
  });

  it('prints spawn cards with parents, F, dates and room to write', async () => {
    const ids = [...new Set(fish.map(({ spawn }) => spawn.id))].slice(0, 3);
    const pages = await pdf(
      `/export/print/spawn-cards.pdf?spawn=${ids.join(',')}&address=${ADDRESS}`,
    );
    const words = pages[0]!.texts.map((text) => text.words);
    for (const expected of ['Spawn', 'Sire', 'Dam', 'F of brood', 'Purpose', 'Hatched']) {
      expect(words).toContain(expected);
    }
    expect(words.filter((word) => /^(≥ |at least )?\d+\.\d\d %/.test(word))).not.toEqual([]);
    const { spawn } = await api.graphql<{ spawn: { id: string; sire: { tag: string } } }>(
      'query ($id: ID!) { spawn(id: $id) { id sire { tag } } }',
      { id: ids[0] },
    );
    expect(words).toContain(spawn.sire.tag);
    const card = { x: 0, y: 0, width: 105 * POINTS, height: 60 * POINTS };
    expect(await pages[0]!.code(card)).toMatch(new RegExp(`^${ADDRESS}/spawns/[\\da-f-]{36}$`));
  });

  it('tells apart on a spawn card an F that is known, a lowest one, and one that is not known', async () => {
    const made = async (field: string, type: string, input: object): Promise<string> =>
      (
        await api.graphql<Record<string, { id: string }>>(
          `mutation ($input: ${type}!) { ${field}(input: $input) { id } }`,
          { input },
        )
      )[field]!.id;
    const founder = (tag: string, sex: string, declaredUnrelated: boolean) =>
      made('createFish', 'CreateFishInput', { tag, sex, declaredUnrelated });
    const [sireId, known, unknown] = [
      await founder('PC-1', 'MALE', true),
      await founder('PC-2', 'FEMALE', true),
      await founder('PC-3', 'FEMALE', false),
    ];
    const printed = async (tag: string, parents: object): Promise<string> => {
      const id = await made('createSpawn', 'CreateSpawnInput', { tag, ...parents });
      const [page] = await pdf(`/export/print/spawn-cards.pdf?spawn=${id}&address=${ADDRESS}`);
      return page!.texts.map(({ words }) => words).join(' ');
    };
    expect(await printed('PC-A', { sireId, damId: known })).toMatch(/F of brood 0\.00 %/);
    expect(await printed('PC-B', { sireId, damId: unknown })).toMatch(
      /F of brood at least 0\.00 %/,
    );
    expect(await printed('PC-C', { sireId })).toMatch(/F of brood not known/);
  });

  it('prints line cards with goal, founders, generation, faults and outcrosses', async () => {
    const { lines } = await api.graphql<{ lines: { id: string; code: string; goal: string }[] }>(
      '{ lines { id code goal } }',
    );
    const pages = await pdf(
      `/export/print/line-cards.pdf?line=${lines.map(({ id }) => id).join(',')}&address=${ADDRESS}`,
    );
    const words = pages[0]!.texts.map((text) => text.words).join('\n');
    for (const { code } of lines) expect(words).toContain(code);
    expect(words).toContain('Founders and bought fish');
    expect(words).toContain('since bought fish');
    expect(words).toContain('Faults met, thought heritable');
    expect(words).toContain('Outcrosses');
    const place = { x: 0, y: 0, width: 105 * POINTS, height: 60 * POINTS };
    expect(await pages[0]!.code(place)).toBe(
      `${ADDRESS}/lines/${[...lines].sort((a, b) => (a.code < b.code ? -1 : 1))[0]!.id}`,
    );
  });

  it('names a locus of the person’s own on a line card', async () => {
    await newRecords(api).defineLocus(mottled);
    const made = async (name: string, type: string, input: object) =>
      (
        await api.graphql<Record<string, { id: string }>>(
          `mutation ($input: ${type}!) { ${name}(input: $input) { id } }`,
          { input },
        )
      )[name]?.id ?? '';
    const line = await made('createLine', 'CreateLineInput', {
      code: 'MOTTLE',
      name: 'Mottle line',
    });
    const fishId = await made('createFish', 'CreateFishInput', {
      tag: 'MOTTLE-1',
      sex: 'MALE',
      lineId: line,
      disposition: 'KEEPER',
    });
    await made('recordGenotype', 'RecordGenotypeInput', {
      fishId,
      locusId: 'mottle',
      genotype: 'mo/mo',
      basis: 'LABORATORY',
    });
    const [page] = await pdf(`/export/print/line-cards.pdf?line=${line}&address=${ADDRESS}`);
    expect(page!.texts.map(({ words }) => words).join(' ')).toContain('Mottle: mo/mo in 1 fish');
  });

  const named = (name: string, tag: string): Promise<string> =>
    newRecords(api).createFish({ tag, name, sex: 'MALE', disposition: 'KEEPER' });

  it.each([
    ['Vietnamese', 'Nguyễn Đức Thịnh', 'wide'],
    ['Vietnamese with loose accents', 'Hồ Gươm'.normalize('NFD'), 'wide'],
    ['Cyrillic', 'Жемчуг Їжак', 'wide'],
    ['Greek', 'Ωκεανός', 'wide'],
    ['Thai', 'ปลากัดที่นี่', 'thai'],
    ['Thai with sara am', 'น้ำคำ', 'thai'],
  ] as const)('prints a name in %s as another program sets it', async (what, name, font) => {
    const id = await named(name, `L-${what}`);
    const [page] = await pdf(`/export/print/jar-labels.pdf?fish=${id}&address=${ADDRESS}`);
    // Sara am is written as the two signs it stands for, with the tone mark between them.
    const drawn = name.normalize('NFC').replace(/([\u0E48-\u0E4B]?)\u0E33/g, '\u0E4D$1\u0E32');
    const text = page!.texts.find(({ words }) => words === drawn);
    expect(text, page!.texts.map(({ words }) => words).join(' | ')).toBeDefined();
    const whole = name.normalize('NFC');
    const boxes = whole.replace(/[^ ]/gu, '\u{10FFFD}');
    const [asSet, asBoxes] = await sharedWith(page!, text!, font, [whole, boxes]);
    expect(asSet).toBeGreaterThan(0.85);
    expect(asBoxes).toBeLessThan(0.5);
  });

  it('puts a font in only for words that need one, and of it only the letters used', async () => {
    const size = async (ids: readonly string[]): Promise<number> => {
      const path = `/export/print/jar-labels.pdf?fish=${ids.join(',')}&address=${ADDRESS}`;
      return (await (await api.http(path)).arrayBuffer()).byteLength;
    };
    const plain = await size([await named('Zoë Müller', 'S-01')]);
    const both = await size([await named('Жемчуг ปลากัด', 'S-02')]);
    expect(plain).toBeLessThan(7_000);
    expect(both).toBeLessThan(30_000);
    expect(both).toBeGreaterThan(plain + 2_000);
  });

  it('cuts a long Thai name between letters, and refuses what would be set wrong', async () => {
    const long = await named('ปลากัดที่นี่น้ำเงิน'.repeat(10), 'C-01');
    const [page] = await pdf(`/export/print/jar-labels.pdf?fish=${long}&address=${ADDRESS}`);
    const thai = page!.texts.filter(({ words }) => /\p{Script=Thai}/u.test(words));
    expect(thai).toHaveLength(1);
    expect(thai[0]!.x + thai[0]!.width).toBeLessThan(70 * POINTS);
    const joined = await named('سمكة', 'C-02');
    expect(await refused(`/export/print/jar-labels.pdf?fish=${joined}`)).toContain('“س”');
    const stacked = await named('x̌', 'C-03');
    expect(await refused(`/export/print/jar-labels.pdf?fish=${stacked}`)).toContain('“U+030C”');
  });

  it('names a letter it cannot print, a sheet that does not fit, a code too small, and an address that is none', async () => {
    const blue = await named('青い', 'X-01');
    expect(await refused(`/export/print/jar-labels.pdf?fish=${blue}`)).toContain('“青”');
    const wide =
      '&page=A4&rows=2&columns=3&labelWidth=90&labelHeight=40&marginTop=0&marginLeft=0&gapX=0&gapY=0';
    expect(await refused(labelsPath(fish.slice(0, 1), wide))).toContain('210 mm wide');
    const small =
      '&page=A4&rows=2&columns=3&labelWidth=20&labelHeight=12&marginTop=0&marginLeft=0&gapX=0&gapY=0';
    expect(await refused(labelsPath(fish.slice(0, 1), small))).toContain('for a phone to read it');
    expect(await refused(labelsPath(fish.slice(0, 1), '&start=99'))).toContain('places 1 to 24');
    const bad = `/export/print/jar-labels.pdf?fish=${fish[0]!.id}&address=javascript:alert(1)`;
    expect(await refused(bad)).toContain('not an address');
    expect(await refused('/export/print/jar-labels.pdf')).toContain('choose fish first');
    expect(await refused('/export/print/jar-labels.pdf?fish=1')).toContain('not the id');
    expect(
      await refused(`/export/print/spawn-cards.pdf?spawn=${fish[0]!.spawn.id}&grid=A4-3x8`),
    ).toContain('fewer cards');
  });

  it('prints a line card of a line with a locus of the person’s own', async () => {
    await newRecords(api).defineLocus({
      locusId: 'printed',
      name: 'Printed locus',
      alleles: [
        { symbol: 'Pr', name: 'plain' },
        { symbol: 'pr', name: 'marked' },
      ],
      looks: [
        { genotype: 'Pr/-', phenotype: 'plain' },
        { genotype: 'pr/pr', phenotype: 'marked' },
      ],
    });
    const line = await newRecords(api).createLine({ code: 'OWN', name: 'Own locus' });
    const fishId = await named('Marked', 'OWN-1');
    await api.graphql(
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      { input: { id: fishId, revision: 1, lineId: line } },
    );
    await newRecords(api).recordGenotype({
      fishId,
      locusId: 'printed',
      genotype: 'Pr/pr',
      basis: 'TEST_MATING',
    });
    const pages = await pdf(`/export/print/line-cards.pdf?line=${line}&address=${ADDRESS}`);
    expect(pages[0]!.texts.map((text) => text.words).join(' ')).toContain('Printed locus: Pr/pr');
  });

  it('prints a thousand labels with long tags in one go, as people count', async () => {
    const tag = 'Long-tag-of-a-spawn-26-01-forty';
    const records = newRecords(api);
    const spawnId = await records.createSpawn({ tag });
    for (let k = 0; k < 5; k += 1) await records.addFishToSpawn({ spawnId, number: 200 });
    const { spawn } = await api.graphql<{ spawn: { fish: { id: string; tag: string }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { fish { id tag } } }',
      { id: spawnId },
    );
    const numbers = spawn.fish.map((fish) => Number(fish.tag.slice(tag.length + 1)));
    expect(numbers).toEqual(Array.from({ length: 1000 }, (_, k) => k + 1));
    const labels = (fish: string) =>
      api.http('/export/print/jar-labels.pdf', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ fish, grid: 'A4-3x8', address: ADDRESS }),
      });
    const ids = spawn.fish.map((fish) => fish.id);
    const made = await labels(ids.join(','));
    expect(made.status).toBe(200);
    const pages = await readPdf(new Uint8Array(await made.arrayBuffer()));
    expect(pages).toHaveLength(Math.ceil(1000 / 24));
    const words = pages.at(-1)!.texts.map((text) => text.words);
    expect(words.some((text) => text.startsWith('Long-tag'))).toBe(true);
    const tooMany = await labels([...ids, await named('One more', 'ONE-MORE')].join(','));
    expect(tooMany.status).toBe(400);
    expect(((await tooMany.json()) as { message: string }).message).toMatch(/choose at most 1000/);
  });

  it('prints nothing without a session', async () => {
    const response = await fetch(`${api.url}${labelsPath(fish.slice(0, 1))}`);
    expect(response.status).toBe(401);
  });

  it('carries the address of the request when none is set, and says that no phone reaches it', async () => {
    const { printAddress } = await api.graphql<{ printAddress: object }>(
      '{ printAddress { address basis reachable } }',
    );
    expect(printAddress).toEqual({ address: api.url, basis: 'REQUEST', reachable: false });
    const pages = await pdf(`/export/print/jar-labels.pdf?fish=${fish[0]!.id}`);
    const place = { x: 0, y: 0, width: 70 * POINTS, height: 37 * POINTS };
    expect(await pages[0]!.code(place)).toBe(`${api.url}/fish/${fish[0]!.id}`);
  });
});

describe('the address set on the server', () => {
  it('goes into the codes', async () => {
    const api = await startApi({ environment: { PUBLIC_ADDRESS: 'https://fish.example/' } });
    try {
      const { printAddress } = await api.graphql<{ printAddress: object }>(
        '{ printAddress { address basis reachable } }',
      );
      expect(printAddress).toEqual({
        address: 'https://fish.example',
        basis: 'SETTING',
        reachable: true,
      });
    } finally {
      await api.close();
    }
  });

  it('is refused when it is none', async () => {
    const { readConfig } = await import('../../apps/api/src/config/config.js');
    expect(() => readConfig({ PUBLIC_ADDRESS: 'my house' })).toThrow(
      /PUBLIC_ADDRESS is "my house"/,
    );
  });
});
