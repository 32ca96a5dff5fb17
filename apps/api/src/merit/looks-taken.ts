import type { LookRow } from '../stock/merit-rows.js';

/** Whether some fish were looked at again, and none got another score. */
const neverDiffer = (looks: readonly LookRow[]): boolean => {
  const first = new Map<string, number>();
  let again = false;
  for (const { fishId, value } of looks) {
    const before = first.get(fishId);
    if (before !== undefined && before !== value) return false;
    again ||= before !== undefined;
    first.set(fishId, value);
  }
  return again;
};

const firstOfEach = (looks: readonly LookRow[]): LookRow[] => {
  const seen = new Set<string>();
  return looks.filter(({ fishId }) => !seen.has(fishId) && seen.add(fishId));
};

/**
 * The looks that a trait is worked out from, one a row: all, or the first of each fish where no look again says anything else. As rows they would
 * say that looks have no error at all, and the heritability would follow from that alone.
 */
export const looksTaken = (
  looks: readonly LookRow[],
): { readonly looks: readonly LookRow[]; readonly sameAgain: boolean } =>
  neverDiffer(looks) ? { looks: firstOfEach(looks), sameAgain: true } : { looks, sameAgain: false };
