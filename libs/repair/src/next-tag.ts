/** A tag in use. `day`: when the fish hatched or the pair spawned, where that is known. `code`: that of its line. */
export interface KnownTag {
  readonly tag: string;
  readonly day: string | null;
  readonly code: string | null;
}

/** How a keeper numbers: what stands before the counter, its digits, what stands after it, and the last one given. */
export interface TagForm {
  readonly before: string;
  readonly digits: number;
  readonly after: string;
  readonly last: number;
}

/** Longer runs of digits are numbers of something else, and too large to count with. */
const MOST_DIGITS = 9;

interface Counted extends TagForm {
  readonly day: string | null;
}

/** A tag split at its last number: "T24-07-12" is "T24-07-" and 12. */
function countedIn({ tag, day }: KnownTag): Counted | null {
  const found = /^(.*?)(\d+)(\D*)$/su.exec(tag.trim());
  if (found === null) return null;
  const [, before = '', counter = '', after = ''] = found;
  if (counter.length > MOST_DIGITS) return null;
  // "9" goes on to "10"; "09" has two digits always.
  const digits = counter.startsWith('0') ? counter.length : 1;
  return { before, digits, after, last: Number(counter), day };
}

const yearBefore = /^(\D*)(\d{4}|\d{2})(\D.*)$/su;

/** "T24-" in 2026, of fish that hatched in 2024, is "T26-" and counts from the start; one without a year stays. */
function ofThisYear(form: TagForm, days: readonly string[], today: string): TagForm {
  const found = yearBefore.exec(form.before);
  const [, code = '', year = '', rest = ''] = found ?? [];
  const isYear = days.length > 0 && days.every((day) => day.slice(4 - year.length, 4) === year);
  const now = today.slice(4 - year.length, 4);
  if (found === null || !isYear || now <= year) return form;
  return { ...form, before: `${code}${now}${rest}`, last: 0 };
}

/** The form that most tags have; of two that as many have, the one of the newest tag. */
function commonForm(known: readonly KnownTag[], today: string): TagForm | null {
  const forms = new Map<string, Counted[]>();
  for (const each of known) {
    const counted = countedIn(each);
    if (counted === null) continue;
    const key = `${counted.before}\0${counted.after}`;
    forms.set(key, [...(forms.get(key) ?? []), counted]);
  }
  let most: readonly Counted[] = [];
  for (const alike of forms.values()) if (alike.length > most.length) most = alike;
  const [newest] = most;
  if (newest === undefined) return null;
  const form = {
    before: newest.before,
    after: newest.after,
    digits: Math.max(...most.map(({ digits }) => digits)),
    last: Math.max(...most.map(({ last }) => last)),
  };
  return ofThisYear(
    form,
    most.map(({ day }) => day).filter((day) => day !== null),
    today,
  );
}

/** Tags of other lines as they would be in this one: "K26-F3" of line K is "T26-F3" in line T. */
function withCode(known: readonly KnownTag[], code: string): KnownTag[] {
  return known
    .filter((each) => each.code !== null && each.code !== '' && each.tag.startsWith(each.code))
    .map(({ tag, day, code: other }) => ({ tag: code + tag.slice(other?.length), day, code }));
}

/**
 * How the tags of a line are numbered: by those of the line, the newest first; where it has none, as the keeper numbers in other lines,
 * from the start. Practice, not a rule: the form that most of the tags have, counted at their last number.
 *
 * @param known tags, the newest first. Work grows with their number.
 * @param asked.code code of the line, or null for tags of no line.
 * @param asked.today a day, `2026-11-28`: a year that stands in the tags goes along with it.
 * @returns the form, or null where no tag has a number to count on from.
 * @example tagForm([{ tag: 'T-02', day: null, code: 'T' }], { code: 'T', today: '2026-11-28' })
 * // { before: 'T-', digits: 2, after: '', last: 2 }
 */
export function tagForm(
  known: readonly KnownTag[],
  { code, today }: { readonly code: string | null; readonly today: string },
): TagForm | null {
  const own = commonForm(
    known.filter((each) => each.code === code),
    today,
  );
  if (own !== null || code === null) return own;
  const like = commonForm(withCode(known, code), today);
  return like === null ? null : { ...like, last: 0 };
}

/** So many tags that follow; the caller leaves out those in use, and goes on from a higher `last`. */
export const tagsAfter = ({ before, digits, after, last }: TagForm, number: number): string[] =>
  Array.from(
    { length: number },
    (_, at) => `${before}${String(last + at + 1).padStart(digits, '0')}${after}`,
  );
