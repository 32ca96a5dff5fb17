import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import jsQR from 'jsqr';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Stand-ins for the PDF's built-in letters, so that pictures look as a reader's would. */
const fonts = `${join(dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')), 'standard_fonts')}/`;

export interface PrintedText {
  readonly words: string;
  /** Points from the top left. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
}

export interface PrintedPage {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly PrintedText[];
  /** Content of the code in a rectangle of the page, points from the top left; `null` when none is read. */
  code(area: { x: number; y: number; width: number; height: number }): Promise<string | null>;
  picture(scale: number): Promise<Buffer>;
}

/** Reads a PDF back with a library that did not write it. */
export const readPdf = async (bytes: Uint8Array): Promise<PrintedPage[]> => {
  const document = await getDocument({ data: bytes, verbosity: 0, standardFontDataUrl: fonts })
    .promise;
  const pages: PrintedPage[] = [];
  for (let n = 1; n <= document.numPages; n += 1) {
    const page = await document.getPage(n);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const texts = items.flatMap((item): PrintedText[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [, , , size = 0, x = 0, baseline = 0] = item.transform as number[];
      return [{ words: item.str, x, y: height - baseline - size * 0.78, width: item.width, size }];
    });
    const draw = async (scale: number) => {
      const viewport = page.getViewport({ scale });
      const canvas = createCanvas(Math.ceil(viewport.width), Math.ceil(viewport.height));
      const canvasContext = canvas.getContext('2d');
      canvasContext.fillStyle = '#fff';
      canvasContext.fillRect(0, 0, canvas.width, canvas.height);
      await page.render({
        canvas: null,
        canvasContext: canvasContext as unknown as CanvasRenderingContext2D,
        viewport,
      }).promise;
      return canvas;
    };
    pages.push({
      width,
      height,
      texts,
      picture: async (scale) => (await draw(scale)).toBuffer('image/png'),
      code: async (area) => {
        const scale = 4;
        const canvas = await draw(scale);
        const [x, y, w, h] = [area.x, area.y, area.width, area.height].map((side) =>
          Math.round(side * scale),
        ) as [number, number, number, number];
        const { data } = canvas.getContext('2d').getImageData(x, y, w, h);
        return jsQR(new Uint8ClampedArray(data.buffer), w, h)?.data ?? null;
      },
    });
  }
  return pages;
};
