import type { Packed, Part } from '@linewright/merging';
import type { SharedKind, ShareGroup } from './share-fields.js';
import { partsOf, type RecordPart } from './share-parts.js';

/**
 * Fields that were one part up to version 4 and are several since, so that what of them is not lent can stay away: the former part is
 * called by its first field.
 */
const former: Partial<Record<ShareGroup, readonly (readonly string[])[]>> = {
  fish: [['disposition', 'dispositionDate', 'dispositionReason', 'swimsWithId']],
  pairings: [['state', 'reason']],
  spawns: [
    ['sireId', 'damId', 'pairingId'],
    ['failed', 'failedReason'],
  ],
  sheetScorings: [['sheetId', 'sheetVersion', 'scoredOn', 'ageDays', 'scorer', 'faultIds']],
};

interface Split {
  readonly fields: readonly string[];
  /** The parts that came of it. */
  readonly into: readonly RecordPart[];
}

const splitsOf = (kind: SharedKind): Split[] =>
  (former[kind.group] ?? []).map((fields) => ({
    fields,
    into: partsOf(kind).filter(({ name }) => fields.includes(name)),
  }));

/** What was told of a former part by its name, told of each that came of it. */
export const forEachPart = <Value>(
  kind: SharedKind,
  byPart: Readonly<Record<string, Value>>,
): Record<string, Value> => {
  const told = { ...byPart };
  for (const { fields, into } of splitsOf(kind))
    for (const { name } of into) {
      const value = byPart[fields[0]!];
      if (value !== undefined) told[name] ??= value;
    }
  return told;
};

/** Other versions of parts, by name: those that have the values of a former part are cut into its parts. */
export const cutApart = <Version>(
  kind: SharedKind,
  others: Readonly<Record<string, readonly Version[]>>,
  valuesOf: (version: Version) => readonly unknown[],
  withValues: (version: Version, values: readonly unknown[]) => Version,
): Record<string, readonly Version[]> => {
  const cut: Record<string, readonly Version[]> = { ...others };
  for (const { fields, into } of splitsOf(kind)) {
    const versions = others[fields[0]!];
    if (versions?.every((version) => valuesOf(version).length === fields.length) !== true) continue;
    for (const part of into)
      cut[part.name] = versions.map((version) => {
        const values = valuesOf(version);
        return withValues(
          version,
          part.fields.map((field) => values[fields.indexOf(field)]),
        );
      });
  }
  return cut;
};

/** Versions that were kept, maybe by an older program. */
export const keptVersions = (kind: SharedKind, versions: Packed): Packed => {
  if (versions.others === undefined || former[kind.group] === undefined) return versions;
  const others = cutApart(
    kind,
    versions.others,
    ({ text }) => JSON.parse(text) as unknown[],
    (version, values) => ({ ...version, text: JSON.stringify(values) }),
  );
  return { ...versions, others: others as Record<string, Part> };
};
