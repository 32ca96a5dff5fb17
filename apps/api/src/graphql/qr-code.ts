import { Field, Int, ObjectType } from '@nestjs/graphql';
import QRCode from 'qrcode';

/** Light modules around a code (ISO/IEC 18004). */
const QUIET = 4;

/** Dark modules beside each other, in modules from the top left corner. */
export interface QrRun {
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/**
 * A text as a QR code (ISO/IEC 18004, error correction M: 15 % may be damaged).
 *
 * @returns its modules across and down, with the light ones around it, and its dark modules by runs
 */
export const qrCode = (content: string): { size: number; runs: QrRun[] } => {
  const { size, data } = QRCode.create(content, { errorCorrectionLevel: 'M' }).modules;
  const runs: QrRun[] = [];
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      if (data[row * size + column] === 0) continue;
      const from = column;
      while (column + 1 < size && data[row * size + column + 1] !== 0) column += 1;
      runs.push({ x: from + QUIET, y: row + QUIET, width: column + 1 - from });
    }
  }
  return { size: size + 2 * QUIET, runs };
};

@ObjectType('QrCode', { description: 'A QR code (ISO/IEC 18004), to be drawn.' })
export class QrCodeModel {
  @Field(() => Int, { description: 'Modules across and down.' })
  size: number;

  @Field(() => String, {
    description: 'The dark modules as an SVG path, a unit each, from the top left corner.',
  })
  path: string;
}

export const toQrCode = (content: string): QrCodeModel => {
  const { size, runs } = qrCode(content);
  return { size, path: runs.map(({ x, y, width }) => `M${x} ${y}h${width}v1h-${width}z`).join('') };
};
