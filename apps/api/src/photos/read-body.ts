import type { Request } from 'express';
import { RequestError } from '../errors/request-error.js';

const tooLarge = (largest: number): RequestError =>
  new RequestError(
    'PHOTO_TOO_LARGE',
    `This file is larger than ${largest / 1024 / 1024} MB: make the picture smaller first.`,
  );

/** The whole body, or an error as soon as it is known to be too large. */
export const readBody = async (req: Request, largest: number): Promise<Buffer> => {
  const told = Number(req.headers['content-length']);
  if (told > largest) throw tooLarge(largest);
  const pieces: Buffer[] = [];
  let length = 0;
  for await (const piece of req as AsyncIterable<Buffer>) {
    length += piece.length;
    if (length > largest) throw tooLarge(largest);
    pieces.push(piece);
  }
  return Buffer.concat(pieces, length);
};
