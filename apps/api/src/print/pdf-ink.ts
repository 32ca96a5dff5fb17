import { PDFDocument, PDFOperator, type PDFOperatorNames, type PDFPage, rgb } from 'pdf-lib';
import { fieldError } from '../errors/request-error.js';
import { qrCode } from '../graphql/qr-code.js';
import { Lettering } from './lettering.js';

export const POINTS_PER_MM = 72 / 25.4;
const black = rgb(0, 0, 0);
const grey = rgb(0.35, 0.35, 0.35);

/** A rectangle on a page, mm from its top left corner. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const inset = (area: Area, by: number): Area => ({
  x: area.x + by,
  y: area.y + by,
  width: area.width - 2 * by,
  height: area.height - 2 * by,
});

/** Smallest module of a code that phones read from a wet jar, mm. */
const LEAST_MODULE = 0.25;
/** Letters of one line, and of one text, that are looked at: no sheet has room for more, and measuring each costs time. */
const LONGEST_LINE = 400;
const LONGEST_TEXT = 10_000;

/** Draws on PDF pages in millimetres from the top left. */
export class PdfInk {
  private page: PDFPage | null = null;

  private constructor(
    private readonly pdf: PDFDocument,
    private readonly lettering: Lettering,
  ) {}

  /** A document with the fonts that the words to be drawn need. */
  static async open(title: string, words: string): Promise<PdfInk> {
    const pdf = await PDFDocument.create();
    pdf.setTitle(title);
    pdf.setCreator('Linewright');
    return new PdfInk(pdf, await Lettering.for(pdf, words));
  }

  addPage(width: number, height: number): void {
    this.page = this.pdf.addPage([width * POINTS_PER_MM, height * POINTS_PER_MM]);
  }

  async save(): Promise<Uint8Array> {
    await this.lettering.write();
    return this.pdf.save();
  }

  /** One line of text with its top at `y`, made smaller to fit the width; cut with an ellipsis below `least` points. */
  text(
    text: string,
    at: { readonly x: number; readonly y: number; readonly width: number },
    options: { size: number; least?: number; bold?: boolean; quiet?: boolean } = { size: 9 },
  ): void {
    const words = shortened(text, LONGEST_LINE);
    const weight = options.bold === true ? 'bold' : 'plain';
    const width = at.width * POINTS_PER_MM;
    const natural = this.lettering.width(words, weight);
    const size = Math.max(
      options.least ?? 5,
      Math.min(options.size, width / Math.max(natural, 1e-6)),
    );
    const fitted = cutToWidth(
      words,
      (part) => this.lettering.width(part, weight) * size <= width + 0.01,
    );
    const page = this.sheet();
    for (const piece of this.lettering.pieces(fitted, weight)) {
      page.drawText(piece.words, {
        x: at.x * POINTS_PER_MM + piece.from * size,
        // The letters hang from the line given: 0.75 of the size is the height of a capital with room above.
        y: page.getHeight() - at.y * POINTS_PER_MM - size * 0.78,
        size,
        font: piece.font,
        color: options.quiet === true ? grey : black,
      });
    }
  }

  /** Lines of at most the given width, broken at spaces and between the words of Thai. */
  lines(words: string, widthMm: number, size: number, most: number): string[] {
    const fits = (line: string) =>
      this.lettering.width(line, 'plain') * size <= widthMm * POINTS_PER_MM;
    const lines: string[] = [];
    for (const { word, gap } of unbroken(shortened(words, LONGEST_TEXT))) {
      if (lines.length > most) break;
      const longer = lines.length === 0 ? word : `${lines.at(-1) ?? ''}${gap}${word}`;
      if (lines.length > 0 && fits(longer)) lines[lines.length - 1] = longer;
      else lines.push(word);
    }
    if (lines.length <= most) return lines;
    return [...lines.slice(0, most - 1), `${lines[most - 1] ?? ''} …`];
  }

  rule(x: number, y: number, width: number): void {
    const page = this.sheet();
    const height = page.getHeight() - y * POINTS_PER_MM;
    page.drawLine({
      start: { x: x * POINTS_PER_MM, y: height },
      end: { x: (x + width) * POINTS_PER_MM, y: height },
      thickness: 0.5,
      color: grey,
    });
  }

  frame(area: Area): void {
    const page = this.sheet();
    page.drawRectangle({
      x: area.x * POINTS_PER_MM,
      y: page.getHeight() - (area.y + area.height) * POINTS_PER_MM,
      width: area.width * POINTS_PER_MM,
      height: area.height * POINTS_PER_MM,
      borderWidth: 0.4,
      borderColor: grey,
    });
  }

  /** Square for a male, circle for a female, diamond for a fish not sexed: as on a pedigree. */
  sexMark(sex: string, x: number, y: number, side: number): void {
    const half = side / 2;
    const shape =
      sex === 'male'
        ? `M0 0H${side}V${side}H0Z`
        : sex === 'female'
          ? `M0 ${half}A${half} ${half} 0 0 1 ${side} ${half}A${half} ${half} 0 0 1 0 ${half}Z`
          : `M${half} 0L${side} ${half}L${half} ${side}L0 ${half}Z`;
    this.path(shape, x, y);
  }

  /** A QR code with its quiet zone inside the square. */
  code(content: string, x: number, y: number, side: number): void {
    const { size, runs } = qrCode(content);
    const module = side / size;
    if (module < LEAST_MODULE) {
      const needed = Math.ceil(LEAST_MODULE * size);
      throw fieldError({
        field: 'sheet',
        message: `The code has ${side.toFixed(0)} mm on this label and needs ${needed} mm for a phone to read it: choose larger labels, or a shorter address.`,
      });
    }
    const rectangles = runs.map((run) => `${run.x} ${-(run.y + 1)} ${run.width} 1 re`);
    this.squares(rectangles, x, y, module);
  }

  /** Filled rectangles in units of `side`, as one operator: an object for each would take a megabyte a code. */
  private squares(rectangles: readonly string[], x: number, y: number, side: number): void {
    const page = this.sheet();
    const scale = (side * POINTS_PER_MM).toFixed(5);
    const at = `${(x * POINTS_PER_MM).toFixed(3)} ${(page.getHeight() - y * POINTS_PER_MM).toFixed(3)}`;
    const drawing = `q 0 0 0 rg ${scale} 0 0 ${scale} ${at} cm ${rectangles.join(' ')} f Q`;
    page.pushOperators(PDFOperator.of(drawing as PDFOperatorNames));
  }

  private path(shape: string, x: number, y: number): void {
    const page = this.sheet();
    page.drawSvgPath(shape, {
      x: x * POINTS_PER_MM,
      y: page.getHeight() - y * POINTS_PER_MM,
      scale: POINTS_PER_MM,
      borderColor: black,
      borderWidth: 0.3,
    });
  }

  private sheet(): PDFPage {
    if (this.page === null) throw new Error('No page was added yet.');
    return this.page;
  }
}

const letters = new Intl.Segmenter('th', { granularity: 'grapheme' });
const thaiWords = new Intl.Segmenter('th', { granularity: 'word' });

const shortened = (words: string, most: number): string =>
  words.length <= most ? words : `${words.slice(0, most)}…`;

/** The words, or as many of their first letters as fit before the sign that some are missing. Some ten askings, however long they are. */
function cutToWidth(words: string, fits: (part: string) => boolean): string {
  if (fits(words)) return words;
  const all = [...letters.segment(words)].map(({ segment }) => segment);
  const cut = (count: number): string => `${all.slice(0, count).join('')}…`;
  let [fitting, tooMany] = [Math.min(1, all.length - 1), all.length];
  while (tooMany - fitting > 1) {
    const middle = Math.floor((fitting + tooMany) / 2);
    if (fits(cut(middle))) fitting = middle;
    else tooMany = middle;
  }
  return cut(fitting);
}

/** The parts no line is broken in, each with what stands before it in a line. */
function unbroken(words: string): { word: string; gap: string }[] {
  return words
    .split(/\s+/)
    .filter((part) => part !== '')
    .flatMap((part) =>
      (/\p{Script=Thai}/u.test(part)
        ? [...thaiWords.segment(part)].map(({ segment }) => segment)
        : [part]
      ).map((word, i) => ({ word, gap: i === 0 ? ' ' : '' })),
    );
}
