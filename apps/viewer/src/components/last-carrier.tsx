import type { AlleleOfLine, YoungToKeep } from '../api/keeping.js';
import { lastCarrierTexts } from '../wording/keeping-words.js';
import { Caution } from './notice.js';

interface LastCarrierProps {
  young: Pick<YoungToKeep, 'alleles' | 'fish'>;
  alleles: readonly AlleleOfLine[];
}

/** What the line would lose with this fish; nothing where it is hardly the last carrier of anything. */
export function LastCarrier({ young, alleles }: LastCarrierProps) {
  return lastCarrierTexts(young, alleles).map((text) => <Caution key={text}>{text}</Caution>);
}
