import type { PurposeContent, PurposeTrait } from '../../api/line-purpose.js';
import type { FieldConflict } from '../../components/conflict-notice.js';
import { purposeSchema, sentContent, type PurposeValues } from './purpose-values.js';
import { changedParts, type LookNames } from './purpose-words.js';

/** Where what stands in a form and what was saved meanwhile differ, part by part. */
export function conflictsBetween(
  typed: PurposeValues,
  saved: PurposeContent,
  traits: readonly PurposeTrait[],
  names: LookNames,
): FieldConflict[] {
  const read = purposeSchema.safeParse(typed);
  // It was sent, so it could be read.
  if (!read.success) return [];
  const sent = sentContent(read.data);
  const named = new Map(traits.map(({ id, name, unit }) => [id, { id, name, unit }]));
  const mine: PurposeContent = {
    ...sent,
    traits: sent.traits.map((aim) => ({
      ...aim,
      ...{ low: aim.low ?? null, high: aim.high ?? null },
      trait: named.get(aim.traitId) ?? { id: aim.traitId, name: 'a withdrawn trait', unit: null },
    })),
    ...{ kinshipRise: sent.kinshipRise ?? null, vessels: sent.vessels ?? null },
    ...{ fry: sent.fry ?? null, inbreedingCost: sent.inbreedingCost ?? null },
    ...{ earliest: sent.earliest ?? null, latest: sent.latest ?? null },
    rules: {
      ...sent.rules,
      bodyLengthRatio: sent.rules.bodyLengthRatio ?? null,
      knownAncestryFrom: read.data.knownAncestry,
    },
  };
  return changedParts(mine, saved, names).map(({ name, before, after }) => ({
    ...{ field: name, mine: before, saved: after },
  }));
}
