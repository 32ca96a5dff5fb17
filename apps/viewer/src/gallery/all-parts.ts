import { fieldParts } from './field-parts.js';
import { fishParts } from './fish-parts.js';
import { formParts } from './form-parts.js';
import { judgementParts } from './judgement-parts.js';
import { listParts } from './list-parts.js';
import { panelParts } from './panel-parts.js';
import type { Parts } from './parts.js';
import { pickerParts } from './picker-parts.js';
import { wordParts } from './word-parts.js';

/** Everything on the page, in its order. */
export const allParts: Parts = {
  ...wordParts,
  ...fishParts,
  ...judgementParts,
  ...listParts,
  ...fieldParts,
  ...formParts,
  ...pickerParts,
  ...panelParts,
};
