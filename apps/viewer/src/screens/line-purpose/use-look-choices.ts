import { LOCUS_CHOICES } from '../../api/heredity.js';
import { useRead } from '../../api/use-read.js';
import type { Choice } from '../../components/fields.js';
import type { LookNames } from './purpose-words.js';

export interface Looks {
  readonly choices: readonly Choice[];
  readonly names: LookNames;
}

/** Looks of all loci that can be worked with, by locus and id. */
export function useLookChoices(): Looks {
  const { data } = useRead(LOCUS_CHOICES, {});
  const loci = (data?.loci ?? []).filter(({ isWithdrawn }) => !isWithdrawn);
  const named = loci.flatMap((locus) =>
    locus.visible.map(({ id, name }) => ({ locus, key: `${locus.id}:${id}`, name })),
  );
  return {
    choices: named
      .filter(({ locus }) => locus.computable)
      .map(({ key, name, locus }) => ({ value: key, label: `${name} · ${locus.name}` })),
    names: new Map(named.map(({ key, name }) => [key, name])),
  };
}
