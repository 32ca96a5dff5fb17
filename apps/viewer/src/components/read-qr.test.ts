import encodeQR from 'qr';
import { describe, expect, it } from 'vitest';
import { type Pixels, qrTextIn } from './read-qr.js';

/** A code drawn in grey on a lighter page, `side` pixels a module, darker towards one side as in a photo. */
const drawn = (text: string, side: number): Pixels => {
  const modules = encodeQR(text, 'raw', { border: 4, ecc: 'medium' });
  const width = modules.length * side;
  const data = new Uint8ClampedArray(width * width * 4);
  for (let y = 0; y < width; y += 1)
    for (let x = 0; x < width; x += 1) {
      const dark = modules[Math.floor(y / side)]?.[Math.floor(x / side)] === true;
      const light = (dark ? 50 : 200) - (40 * x) / width;
      data.set([light, light, light, 255], (y * width + x) * 4);
    }
  return { width, height: width, data };
};

describe('a QR code in a picture', () => {
  it('is read, as long as that of an install is', async () => {
    const text = `linewright-install:${'aZ3_-9'.repeat(38)}`;
    expect(await qrTextIn(drawn(text, 5))).toBe(text);
  });

  it('is null where there is none', async () => {
    const data = new Uint8ClampedArray(200 * 200 * 4).fill(255);
    expect(await qrTextIn({ width: 200, height: 200, data })).toBeNull();
  });
});
