import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type Canvas, createCanvas } from '@napi-rs/canvas';
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

/** A rectangle of a page, points from its top left. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PrintedPage {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly PrintedText[];
  /** Content of the code in an area; `null` when none is read. */
  code(area: Area): Promise<string | null>;
  /** The page, or an area of it, drawn so many dots a point. */
  draw(scale: number, area?: Area): Promise<Canvas>;
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
    const draw = async (
      scale: number,
      area: Area = { x: 0, y: 0, width, height },
    ): Promise<Canvas> => {
      const [offsetX, offsetY] = [-area.x * scale, -area.y * scale];
      const canvas = createCanvas(Math.ceil(area.width * scale), Math.ceil(area.height * scale));
      const canvasContext = canvas.getContext('2d');
      canvasContext.fillStyle = '#fff';
      canvasContext.fillRect(0, 0, canvas.width, canvas.height);
      await page.render({
        canvas: null,
        canvasContext: canvasContext as unknown as CanvasRenderingContext2D,
        viewport: page.getViewport({ scale, offsetX, offsetY }),
      }).promise;
      return canvas;
    };
    pages.push({
      width,
      height,
      texts,
      draw,
      code: async (area) => {
        const canvas = await draw(4, area);
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        return jsQR(new Uint8ClampedArray(data.buffer), canvas.width, canvas.height)?.data ?? null;
      },
    });
  }
  return pages;
};
