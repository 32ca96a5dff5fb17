import { NativeSelect } from '@mantine/core';
import type { LocusChoice } from '../../api/heredity.js';
import type { Look } from '../../api/inheritance.js';

interface LookChoiceProps {
  readonly loci: readonly LocusChoice[];
  readonly look: Look;
  readonly onChange: (look: Look) => void;
  /** What stands before the labels when a screen asks for two looks. */
  readonly which?: string;
}

/** The last look of a locus, which is the one with two copies where there are two. */
export const lastLook = (locus: LocusChoice): Look => ({
  locusId: locus.id,
  phenotype: locus.visible.at(-1)?.id ?? '',
});

/** A locus and one of its looks. */
export function LookChoice({ loci, look, onChange, which = '' }: LookChoiceProps) {
  const locus = loci.find(({ id }) => id === look.locusId);
  const label = (word: string): string => (which === '' ? word : `${which} ${word.toLowerCase()}`);
  return (
    <>
      <NativeSelect
        label={which === '' ? 'Locus' : `Locus of the ${which.toLowerCase()} look`}
        value={look.locusId}
        onChange={(event) => {
          const next = loci.find(({ id }) => id === event.currentTarget.value);
          if (next !== undefined) onChange(lastLook(next));
        }}
        data={loci.map(({ id, name }) => ({ value: id, label: name }))}
      />
      <NativeSelect
        label={label('Look')}
        value={look.phenotype}
        onChange={(event) => onChange({ ...look, phenotype: event.currentTarget.value })}
        data={(locus?.visible ?? []).map(({ id, name }) => ({ value: id, label: name }))}
      />
    </>
  );
}
