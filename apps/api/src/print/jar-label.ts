import { type LabelSheet, labelPlaces, pageSizes } from '@linewright/care';
import type { LabelRow, VesselLabelRow } from '../stock/printed-rows.js';
import { type Area, PdfInk, inset } from './pdf-ink.js';

/** What a jar label says: of the fish in it, or of the jar itself, whoever is in it. */
export type JarLabel = LabelRow | VesselLabelRow;

/** Nothing is printed closer to the edge of a label, mm: printers and cutters are that far off. */
export const LABEL_INSET = 3;
const SMALLEST_CODE = 12;

const sexWord: Readonly<Record<string, string>> = {
  male: 'male',
  female: 'female',
  unsexed: 'unsexed',
  uncertain: 'sex uncertain',
};

/** From one of the lower lines to the next, and the height of its letters, in units of the label. */
const LINE_STEP = 0.95;
const LINE_SIZE = 0.75;

interface LabelWords {
  readonly path: string;
  readonly title: string;
  readonly sex: string | null;
  readonly rest: readonly string[];
}

const joined = (parts: readonly (string | null)[]): string =>
  parts.filter((part) => part !== null && part !== '').join(', ');

const named = (what: string, name: string | number | null): string =>
  name === null ? '' : `${what} ${name}`;

const wordsOfVessel = (label: VesselLabelRow): LabelWords => ({
  path: `/vessels/${label.id}?house=${label.personId}`,
  title: label.code,
  sex: null,
  rest: [
    joined([label.rack, named('shelf', label.shelf), named('position', label.position)]),
    label.litres === null ? '' : `${label.litres} litres`,
  ],
});

const wordsOf = (label: JarLabel): LabelWords =>
  'code' in label
    ? wordsOfVessel(label)
    : {
        path: `/fish/${label.id}`,
        title: label.tag,
        sex: label.sex,
        rest: [
          label.hatchDate === null ? 'hatch date unknown' : `hatched ${label.hatchDate}`,
          joined([named('line', label.line), named('spawn', label.spawn)]),
          label.name ?? '',
          joined([named('swims with', label.swimsWith), named('record of', label.recordOf)]),
        ],
      };

const draw = (ink: PdfInk, label: JarLabel, place: Area, address: string): void => {
  const { path, title, sex, rest: all } = wordsOf(label);
  const area = inset(place, LABEL_INSET);
  const side = Math.min(area.height, Math.max(SMALLEST_CODE, area.width * 0.42));
  ink.code(`${address}${path}`, area.x + area.width - side, area.y, side);
  const width = area.width - side - 1;
  const unit = Math.min(area.height / 5.4, 6);
  const size = (lines: number) => unit * lines * 2.35;
  ink.text(title, { x: area.x, y: area.y, width }, { size: size(1.5), bold: true, least: 4 });
  if (sex !== null) {
    ink.sexMark(sex, area.x + 0.2, area.y + unit * 1.75, unit * 0.7);
    ink.text(
      sexWord[sex] ?? sex,
      { x: area.x + unit, y: area.y + unit * 1.7, width: width - unit },
      { size: size(0.9), least: 4 },
    );
  }
  const rest = all.filter((part) => part !== '');
  // Up to three lines stand as wide apart as they like; more of them share the same height, letters and all.
  const step = Math.min(
    LINE_STEP,
    (2 * LINE_STEP + LINE_SIZE) / (rest.length - 1 + LINE_SIZE / LINE_STEP),
  );
  rest.forEach((words, i) => {
    ink.text(
      words,
      { x: area.x, y: area.y + unit * (2.8 + i * step), width },
      { size: size((LINE_SIZE * step) / LINE_STEP), least: 4 },
    );
  });
};

/** Jar labels on a sheet, the first in the place after `skip` used ones. */
export const jarLabels = async (
  labels: readonly JarLabel[],
  sheet: LabelSheet,
  skip: number,
  address: string,
): Promise<Uint8Array> => {
  const ink = await PdfInk.open('Jar labels', JSON.stringify(labels));
  const page = pageSizes[sheet.page];
  let pages = 0;
  labelPlaces(sheet, labels.length, skip).forEach((place, i) => {
    const label = labels[i];
    if (label === undefined) return;
    for (; pages <= place.page; pages += 1) ink.addPage(page.width, page.height);
    draw(ink, label, place, address);
  });
  return ink.save();
};
