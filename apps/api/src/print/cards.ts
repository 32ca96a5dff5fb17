import { type LabelSheet, labelPlaces, pageSizes } from '@linewright/care';
import { fieldError } from '../errors/request-error.js';
import { type Area, PdfInk, inset } from './pdf-ink.js';

/** A card: facts, then short lists, then room to write. */
export interface Card {
  readonly kind: string;
  readonly title: string;
  /** What its code opens, after the address of the install. */
  readonly path: string;
  readonly facts: readonly (readonly [name: string, value: string])[];
  readonly lists: readonly {
    readonly title: string;
    readonly items: readonly string[];
    /** Shown in full, over several lines if need be. */
    readonly whole?: boolean;
    /** One after the other in running lines, so that more fit; cut short with an ellipsis. */
    readonly running?: boolean;
  }[];
  /** Ruled lines with these words before them. */
  readonly toWrite: readonly string[];
}

const CARD_INSET = 6;
const LEAST = { width: 90, height: 120 } as const;
const CODE = 22;
const STEP = 4.6;
const RULE_STEP = 7;

const drawHead = (ink: PdfInk, card: Card, area: Area, address: string): number => {
  ink.code(`${address}${card.path}`, area.x + area.width - CODE, area.y, CODE);
  const width = area.width - CODE - 2;
  ink.text(card.kind, { x: area.x, y: area.y, width }, { size: 9, quiet: true });
  ink.text(card.title, { x: area.x, y: area.y + 4, width }, { size: 18, bold: true, least: 8 });
  return area.y + CODE + 1;
};

const drawFacts = (ink: PdfInk, card: Card, area: Area, from: number): number => {
  let y = from;
  const nameWidth = 24;
  for (const [name, value] of card.facts) {
    ink.text(name, { x: area.x, y, width: nameWidth - 1 }, { size: 8.5, quiet: true });
    const lines = ink.lines(value, area.width - nameWidth, 9, 3);
    lines.forEach((line, i) => {
      ink.text(
        line,
        { x: area.x + nameWidth, y: y + i * 4, width: area.width - nameWidth },
        { size: 9 },
      );
    });
    y += STEP + Math.max(0, lines.length - 1) * 4;
  }
  return y;
};

const LIST_GAP = 1.5;
const ITEM_SIZE = 8.5;
const ITEM_INDENT = 2;
const MOST_RUNNING = 8;

interface FittedList {
  readonly title: string;
  readonly lines: readonly string[];
  readonly running: boolean;
  /** Lines it may take, its title apart. */
  share: number;
}

/** Shares out the room, a line at a time to the list that has least; a warning is never cut short. */
const fitLists = (ink: PdfInk, card: Card, width: number, room: number): FittedList[] => {
  const lists = card.lists
    .filter(({ items }) => items.length > 0)
    .map(({ title, items, whole = false, running = false }): FittedList => {
      const lines = whole
        ? items.flatMap((item) => ink.lines(item, width - ITEM_INDENT, ITEM_SIZE, 4))
        : running
          ? ink.lines(items.join('; '), width - ITEM_INDENT, ITEM_SIZE, MOST_RUNNING)
          : items;
      return { title, lines, running, share: whole ? lines.length : 1 };
    });
  let left = room - lists.reduce((sum, { share }) => sum + LIST_GAP + STEP * (1 + share), 0);
  if (left < 0) {
    throw fieldError({
      field: 'sheet',
      message: `These cards are too small for what the records hold (${lists.length} lists): choose a grid with fewer cards.`,
    });
  }
  for (; left >= STEP; left -= STEP) {
    const [shortest] = lists
      .filter(({ lines, share }) => share < lines.length)
      .sort((a, b) => a.share - b.share);
    if (shortest === undefined) break;
    shortest.share += 1;
  }
  return lists;
};

/** What does not fit in a list is told as a number. */
const drawLists = (ink: PdfInk, card: Card, area: Area, from: number, to: number): number => {
  let y = from;
  const line = (words: string, indent: number, options: Parameters<PdfInk['text']>[2]) => {
    ink.text(words, { x: area.x + indent, y, width: area.width - indent }, options);
    y += STEP;
  };
  for (const { title, lines, share, running } of fitLists(ink, card, area.width, to - from)) {
    y += LIST_GAP;
    line(title, 0, { size: 9, bold: true });
    if (running && lines.length > share) {
      for (const words of lines.slice(0, share - 1)) line(words, ITEM_INDENT, { size: ITEM_SIZE });
      line(`${lines[share - 1] ?? ''} …`, ITEM_INDENT, { size: ITEM_SIZE, least: 6 });
      continue;
    }
    const shown = lines.length <= share ? lines : lines.slice(0, share - 1);
    for (const item of shown) line(item, ITEM_INDENT, { size: ITEM_SIZE, least: 6 });
    const rest = lines.length - shown.length;
    if (rest > 0) {
      const words = shown.length === 0 ? `${rest}, on the screen` : `and ${rest} more`;
      line(words, ITEM_INDENT, { size: ITEM_SIZE, quiet: true });
    }
  }
  return y;
};

const drawRoom = (ink: PdfInk, card: Card, area: Area, from: number): void => {
  let y = from + 3;
  const bottom = area.y + area.height;
  for (let i = 0; y + RULE_STEP <= bottom; i += 1) {
    const words = card.toWrite[i] ?? '';
    if (words !== '') {
      ink.text(words, { x: area.x, y: y + RULE_STEP - 4, width: 30 }, { size: 8, quiet: true });
    }
    ink.rule(area.x, y + RULE_STEP, area.width);
    y += RULE_STEP;
  }
};

/** Cards on a sheet, with a cutting frame around each. */
export const cards = async (
  title: string,
  list: readonly Card[],
  sheet: LabelSheet,
  skip: number,
  address: string,
): Promise<Uint8Array> => {
  const places = labelPlaces(sheet, list.length, skip);
  if (sheet.labelWidth < LEAST.width || sheet.labelHeight < LEAST.height) {
    throw fieldError({
      field: 'sheet',
      message: `A card needs ${LEAST.width} by ${LEAST.height} mm at least, and these are ${sheet.labelWidth} by ${sheet.labelHeight} mm: choose a grid with fewer cards.`,
    });
  }
  const ink = await PdfInk.open(title, JSON.stringify(list));
  const page = pageSizes[sheet.page];
  let pages = 0;
  places.forEach((place, i) => {
    const card = list[i];
    if (card === undefined) return;
    for (; pages <= place.page; pages += 1) ink.addPage(page.width, page.height);
    ink.frame(inset(place, 1));
    const area = inset(place, CARD_INSET);
    const roomFor = Math.max(3, card.toWrite.length);
    const afterFacts = drawFacts(ink, card, area, drawHead(ink, card, area, address));
    const listsEnd = area.y + area.height - roomFor * RULE_STEP - 3;
    drawRoom(ink, card, area, drawLists(ink, card, area, afterFacts, listsEnd));
  });
  return ink.save();
};
