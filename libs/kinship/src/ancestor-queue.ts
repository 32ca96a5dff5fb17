/**
 * Bits of a set of indices from which the highest is taken again and again while lower ones are added: a trace from young to
 * old. `word[k >> 5]` holds index k; `summary[k >> 10]` tells which words are not empty, so that a few ancestors among a
 * million individuals are found without looking at all words. The loops stand in the traces themselves, where they are fast.
 */
export interface AncestorQueue {
  readonly word: Int32Array;
  readonly summary: Int32Array;
}

export function ancestorQueue(size: number): AncestorQueue {
  return {
    word: new Int32Array((size >> 5) + 1),
    summary: new Int32Array((size >> 10) + 1),
  };
}

export function enqueue({ word, summary }: AncestorQueue, index: number): void {
  word[index >> 5]! |= 1 << index;
  summary[index >> 10]! |= 1 << (index >> 5);
}
