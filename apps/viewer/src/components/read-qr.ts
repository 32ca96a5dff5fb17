/** Pixels along the longer side to which a picture is made smaller before a code is looked for in it. */
const MOST = 1600;

/** A picture as pixels: four bytes each, red, green, blue and opacity. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/**
 * The text of the QR code in a picture; null where none is found. The reader is fetched when it is first needed.
 *
 * Cost: some tenths of a second for two million pixels.
 */
export async function qrTextIn(pixels: Pixels): Promise<string | null> {
  const { decodeQR } = await import('qr/decode.js');
  try {
    return decodeQR(pixels);
  } catch {
    return null;
  }
}

/** The same of a picture as a file, such as a photo just taken; null also for a file that is no picture. */
export async function qrTextOf(file: Blob): Promise<string | null> {
  const picture = await createImageBitmap(file).catch(() => null);
  if (picture === null) return null;
  const scale = Math.min(1, MOST / Math.max(picture.width, picture.height));
  const [width, height] = [picture.width, picture.height].map((side) => Math.round(side * scale));
  const canvas = document.createElement('canvas');
  Object.assign(canvas, { width, height });
  const ink = canvas.getContext('2d');
  if (ink === null || width === undefined || height === undefined) return null;
  ink.drawImage(picture, 0, 0, width, height);
  picture.close();
  return qrTextIn(ink.getImageData(0, 0, width, height));
}
