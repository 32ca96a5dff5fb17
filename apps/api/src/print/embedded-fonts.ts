import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { CustomFontSubsetEmbedder, type PDFDocument, PDFFont } from 'pdf-lib';

/** Which letters a font file is for: those of Thai, or those of the other alphabets that need no joining. */
export type Alphabet = 'thai' | 'wide';
export type Weight = 'plain' | 'bold';

// DejaVu Sans Condensed: Latin with the letters of Vietnamese, Cyrillic, Greek, Armenian, Georgian; as narrow as Helvetica.
const files: Readonly<Record<Alphabet, Readonly<Record<Weight, string>>>> = {
  wide: {
    plain: 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf',
    bold: 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf',
  },
  thai: {
    plain: '@fontsource/noto-sans-thai/files/noto-sans-thai-thai-400-normal.woff',
    bold: '@fontsource/noto-sans-thai/files/noto-sans-thai-thai-700-normal.woff',
  },
};

// The files stay in node_modules, found from the source and from the bundle alike.
const { resolve } = createRequire(import.meta.url);

/** Fonts to go into one document, of which only the letters used are written, and only where one is used. */
export class EmbeddedFonts {
  private readonly used = new Map<CustomFontSubsetEmbedder, PDFFont>();

  private constructor(
    private readonly pdf: PDFDocument,
    private readonly read: ReadonlyMap<
      Alphabet,
      Readonly<Record<Weight, CustomFontSubsetEmbedder>>
    >,
  ) {}

  /** Reads the font files of the alphabets given. */
  static async read(pdf: PDFDocument, alphabets: Iterable<Alphabet>): Promise<EmbeddedFonts> {
    const needed = [...alphabets];
    if (needed.length === 0) return new EmbeddedFonts(pdf, new Map());
    // Most sheets need none, and loading it takes longer than they do.
    const { default: fontkit } = await import('@pdf-lib/fontkit');
    const embedder = async (file: string) =>
      CustomFontSubsetEmbedder.for(fontkit, await readFile(resolve(file)));
    const read = await Promise.all(
      needed.map(async (alphabet) => {
        const { plain, bold } = files[alphabet];
        const both = { plain: await embedder(plain), bold: await embedder(bold) };
        return [alphabet, both] as const;
      }),
    );
    return new EmbeddedFonts(pdf, new Map(read));
  }

  has(alphabet: Alphabet, character: string): boolean {
    const font = this.read.get(alphabet)?.plain.font;
    return font?.hasGlyphForCodePoint(character.codePointAt(0) ?? 0) ?? false;
  }

  width(alphabet: Alphabet, weight: Weight, words: string): number {
    return this.embedder(alphabet, weight).widthOfTextAtSize(words, 1);
  }

  /** The font to draw with; asking for it puts it into the document. */
  font(alphabet: Alphabet, weight: Weight): PDFFont {
    const embedder = this.embedder(alphabet, weight);
    const known = this.used.get(embedder);
    if (known !== undefined) return known;
    const font = PDFFont.of(this.pdf.context.nextRef(), this.pdf, embedder);
    this.used.set(embedder, font);
    return font;
  }

  /** Writes the letters used, once all are drawn. */
  async write(): Promise<void> {
    for (const font of this.used.values()) await font.embed();
  }

  private embedder(alphabet: Alphabet, weight: Weight): CustomFontSubsetEmbedder {
    const both = this.read.get(alphabet);
    if (both === undefined) throw new Error(`The font for ${alphabet} letters was not read.`);
    return both[weight];
  }
}
