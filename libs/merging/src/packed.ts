import type { Part } from './part.js';
import type { MergedRecord, Texts } from './record.js';
import type { Stamp } from './stamp.js';

/** Versions of a record to be kept or sent beside the record as it is shown: nearly always one stamp for all of its parts. */
export interface Packed {
  /** Of every part that is not named in `parts`. */
  readonly all: Stamp;
  readonly parts?: Readonly<Record<string, Stamp>>;
  /** Versions that are not the one shown. */
  readonly others?: Readonly<Record<string, Part>>;
  /** Parts of which nothing is known: what is shown of them is nobody's version. */
  readonly missing?: readonly string[];
}

const written = (stamp: Stamp): string => JSON.stringify(stamp);

const mostFrequent = (stamps: readonly Stamp[]): Stamp => {
  const times = new Map<string, { stamp: Stamp; times: number }>();
  for (const stamp of stamps) {
    const seen = times.get(written(stamp)) ?? { stamp, times: 0 };
    times.set(written(stamp), { stamp, times: seen.times + 1 });
  }
  return [...times.values()].reduce((a, b) => (b.times > a.times ? b : a)).stamp;
};

/**
 * A record beside what is shown of it; parts that are shown and that the record does not have are told as missing. Cost: linear in its parts.
 *
 * @throws RangeError where a part does not have the text that is shown of it, or the record has no part
 */
export const pack = (record: MergedRecord, shown: Texts): Packed => {
  const names = Object.keys(record);
  if (names.length === 0) throw new RangeError('A record without parts has no stamp.');
  const shownVersion = names.map((name) => {
    const found = record[name]!.find(({ text }) => text === shown[name]);
    if (found === undefined)
      throw new RangeError(`The part "${name}" has no version of what is shown of it.`);
    return { name, version: found };
  });
  const all = mostFrequent(shownVersion.map(({ version }) => version.stamp));
  const parts = shownVersion.filter(({ version }) => written(version.stamp) !== written(all));
  const others = shownVersion
    .map(({ name, version }) => [name, record[name]!.filter((one) => one !== version)] as const)
    .filter(([, rest]) => rest.length > 0);
  const missing = Object.keys(shown).filter((name) => record[name] === undefined);
  return {
    all,
    ...(parts.length > 0 && {
      parts: Object.fromEntries(parts.map(({ name, version }) => [name, version.stamp])),
    }),
    ...(others.length > 0 && { others: Object.fromEntries(others) }),
    ...(missing.length > 0 && { missing }),
  };
};

/** The record again, from what was kept or sent beside `shown`; each part that is shown has a version, but for those that are missing. */
export const unpack = ({ all, parts, others, missing = [] }: Packed, shown: Texts): MergedRecord =>
  Object.fromEntries(
    Object.entries(shown)
      .filter(([name]) => !missing.includes(name))
      .map(([name, text]) => [
        name,
        [{ text, stamp: parts?.[name] ?? all }, ...(others?.[name] ?? [])],
      ]),
  );
