import type { FishMerit } from '../../api/merit.js';

/** Traits of which it is known what the fish passes on, and what its young can be expected at. */
export const knownOf = <Merit extends Pick<FishMerit, 'value' | 'expectedYoung'>>(
  merit: readonly Merit[],
): Merit[] => merit.filter(({ value, expectedYoung }) => value !== null && expectedYoung !== null);

/** The trait whose picture stands open: the first of a measure, else the first. */
export const openFirst = (
  known: readonly { readonly trait: { readonly id: string }; readonly value: FishMerit['value'] }[],
): string | undefined =>
  (known.find(({ value }) => value?.kind === 'LINEAR') ?? known[0])?.trait.id;
