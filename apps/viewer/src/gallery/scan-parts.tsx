import { ScanCode } from '../panels/scan-code.js';
import { Answering } from './invented-api.js';
import { nothing } from './invented-words.js';
import type { Parts } from './parts.js';

/** Codes of labels. */
export const scanParts: Parts = {
  ScanCode: {
    'ready for a code': () => (
      <Answering with={[]}>
        <ScanCode onFound={nothing} />
      </Answering>
    ),
  },
};
