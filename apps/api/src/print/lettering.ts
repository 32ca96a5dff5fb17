import { type PDFDocument, type PDFFont, StandardFonts } from 'pdf-lib';
import { fieldError } from '../errors/request-error.js';
import { type Alphabet, EmbeddedFonts, type Weight } from './embedded-fonts.js';

/** Words to be drawn with one font. */
interface Run {
  readonly words: string;
  readonly alphabet: Alphabet | 'western';
}

const isThai = (character: string): boolean => /\p{Script=Thai}/u.test(character);
// Letters that stand side by side as they are: what joins, stacks or runs from right to left needs more than a font.
const standsAlone =
  /^(?!\p{M})[\p{scx=Latin}\p{scx=Greek}\p{scx=Cyrillic}\p{scx=Armenian}\p{scx=Georgian}\p{scx=Common}]$/u;
const unseen = /[\p{M}\p{C}\p{Z}]/u;

/**
 * Words as they are drawn: accents joined to their letters, and in Thai the ring of SARA AM below the tone mark, where
 * it is written (Unicode Standard, Thai: SARA AM is NIKHAHIT and SARA AA, and the tone mark goes between them; from
 * memory, confirmed by looking at the page).
 */
export const asDrawn = (words: string): string =>
  words.normalize('NFC').replace(/([\u0E48-\u0E4B]?)\u0E33/g, '\u0E4D$1\u0E32');

/**
 * The letters of one document: the PDF's built-in Helvetica for western European words, and a font that is put into the
 * document for words that need one. A letter that none of them has is refused by name rather than printed wrong.
 */
export class Lettering {
  private constructor(
    private readonly western: Readonly<Record<Weight, PDFFont>>,
    private readonly known: ReadonlySet<number>,
    private readonly embedded: EmbeddedFonts,
  ) {}

  /** `words` holds at least every letter that will be drawn. */
  static async for(pdf: PDFDocument, words: string): Promise<Lettering> {
    const western = {
      plain: await pdf.embedFont(StandardFonts.Helvetica),
      bold: await pdf.embedFont(StandardFonts.HelveticaBold),
    };
    const known = new Set(western.plain.getCharacterSet());
    const needed = new Set<Alphabet>();
    for (const character of new Set(asDrawn(words))) {
      if (!known.has(character.codePointAt(0) ?? 0))
        needed.add(isThai(character) ? 'thai' : 'wide');
    }
    return new Lettering(western, known, await EmbeddedFonts.read(pdf, needed));
  }

  width(words: string, weight: Weight): number {
    let width = 0;
    for (const { alphabet, words: part } of this.runs(words)) {
      width +=
        alphabet === 'western'
          ? this.western[weight].widthOfTextAtSize(part, 1)
          : this.embedded.width(alphabet, weight, part);
    }
    return width;
  }

  /** The words in order, each with its font and its distance from the start at size 1. */
  pieces(words: string, weight: Weight): { words: string; font: PDFFont; from: number }[] {
    let from = 0;
    return this.runs(words).map(({ words: part, alphabet }) => {
      const font =
        alphabet === 'western' ? this.western[weight] : this.embedded.font(alphabet, weight);
      const piece = { words: part, font, from };
      from += font.widthOfTextAtSize(part, 1);
      return piece;
    });
  }

  write(): Promise<void> {
    return this.embedded.write();
  }

  /** Thai apart from the rest; the rest in one font, so that no word is of two. */
  private runs(words: string): Run[] {
    const drawn = asDrawn(words);
    const rest = [...drawn].every((character) => isThai(character) || this.isWestern(character))
      ? 'western'
      : 'wide';
    const runs: { words: string; alphabet: Run['alphabet'] }[] = [];
    for (const character of drawn) {
      const alphabet = isThai(character) ? 'thai' : rest;
      this.expectPrintable(character, alphabet, words);
      const last = runs.at(-1);
      if (last?.alphabet === alphabet) last.words += character;
      else runs.push({ words: character, alphabet });
    }
    return runs;
  }

  private isWestern(character: string): boolean {
    return this.known.has(character.codePointAt(0) ?? 0);
  }

  private expectPrintable(character: string, alphabet: Run['alphabet'], words: string): void {
    if (alphabet === 'western') return;
    const fits = alphabet === 'thai' || this.isWestern(character) || standsAlone.test(character);
    if (fits && this.embedded.has(alphabet, character)) return;
    const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    const named = unseen.test(character) ? `U+${code}` : character;
    throw fieldError({
      field: 'text',
      message: `“${named}” in “${words}” cannot be printed: labels and cards have the letters of Latin, Greek, Cyrillic, Armenian, Georgian and Thai only. Write the name with those, or print the fish’s page from the browser.`,
    });
  }
}
