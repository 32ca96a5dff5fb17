import type { ScannedCode } from '../../api/vessels.js';

interface Known {
  readonly id: string;
  readonly tag: string;
}

const LABEL_OF_FISH = /^https?:\/\/[^/\s]+\/fish\/([^/?#\s]+)$/u;

const plain = (text: string): string => text.replace(/\s/gu, '').toLowerCase();

/**
 * The fish of the bench that a code is of, found without the server: by the label of the fish, by its tag, or by the last part of that
 * ("4" or "04" for T24-01-04). `null`: it is none, or of several.
 */
export function fishAtHand(fish: readonly Known[], text: string): Known | null {
  const [, id] = LABEL_OF_FISH.exec(text.trim()) ?? [];
  if (id !== undefined) return fish.find((one) => one.id === id) ?? null;
  const sought = plain(text);
  if (sought === '') return null;
  const whole = fish.find(({ tag }) => plain(tag) === sought);
  if (whole !== undefined) return whole;
  if (!/^\d+$/u.test(sought)) return null;
  const ends = fish.filter(({ tag }) => {
    const [end] = /\d+$/u.exec(tag) ?? [];
    return end !== undefined && Number(end) === Number(sought);
  });
  return ends.length === 1 ? ends[0]! : null;
}

/** What the server found, at the bench of one brood: the fish to go to, or why there is none. */
export function fishScanned(
  fish: readonly Known[],
  { vessel, fish: found, unknownCode }: ScannedCode,
): { readonly goTo: Known } | { readonly words: string } {
  const here = (id: string | undefined) => fish.find((one) => one.id === id);
  if (found !== null) {
    const one = here(found.id);
    return one === undefined ? { words: `${found.tag} is of another spawn.` } : { goTo: one };
  }
  if (vessel === null) return { words: `Nothing here has the code ${unknownCode ?? ''}.` };
  const inIt = vessel.stays.flatMap((stay) => here(stay.fish?.id) ?? []);
  const [only] = inIt;
  if (only !== undefined && inIt.length === 1) return { goTo: only };
  if (only !== undefined)
    return {
      words: `Several of this spawn are in ${vessel.code}: ${inIt.map(({ tag }) => tag).join(', ')}. Type the tag.`,
    };
  return {
    words:
      vessel.stays.length === 0
        ? `${vessel.code} is empty on record.`
        : `No fish of this spawn is in ${vessel.code}.`,
  };
}
