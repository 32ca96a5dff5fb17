import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Sheet } from '../../components/sheet.js';
import { plural } from '../../wording/figures.js';
import { CullCaution } from '../fish/decide-form.js';
import { phenotypesOf, reasonsFor } from './reasons.js';
import type { BenchParts } from './sorting-screen.js';

interface CullFrySheetProps extends BenchParts {
  opened: boolean;
  onClose: () => void;
  locusId: string | null;
}

/** Fry without a record, culled as a count with a reason. */
export function CullFrySheet(props: CullFrySheetProps) {
  return (
    <Sheet title={`Cull fry of ${props.bench.tag}`} opened={props.opened} onClose={props.onClose}>
      <CullFryForm {...props} />
    </Sheet>
  );
}

function CullFryForm({ bench, entries, say, onClose, locusId: counting }: CullFrySheetProps) {
  const [number, setNumber] = useState('');
  const [reason, setReason] = useState('');
  const [heritable, setHeritable] = useState(false);
  const [locusId, setLocusId] = useState(counting ?? '');
  const [phenotype, setPhenotype] = useState('');
  const [slip, setSlip] = useState<string | null>(null);
  const locus = bench.loci.find((each) => each.id === locusId);
  const save = async () => {
    const count = Number(number);
    if (!Number.isInteger(count) || count < 1 || count > 5000)
      return setSlip('Give a whole number of fry, 1 to 5000.');
    if (reason.trim() === '') return setSlip('Give the reason: it is what the line learns from.');
    setSlip(null);
    const seen =
      heritable && locus !== undefined && phenotype !== '' ? { locusId, phenotype } : null;
    const entered = await entries.cullFry({
      number: count,
      reason: reason.trim(),
      heritable,
      locusId: heritable && locusId !== '' ? locusId : null,
      seen,
    });
    if (!entered) return undefined;
    say(`${plural(count, 'fry', 'fry')} culled`);
    return onClose();
  };
  return (
    <form
      className="lw-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <TextInput
        label="Number of fry"
        inputMode="numeric"
        value={number}
        data-autofocus
        onChange={(event) => setNumber(event.currentTarget.value)}
      />
      <TextInput
        label="Reason"
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <div className="lw-bench-chips" role="group" aria-label="Reasons used before">
        {reasonsFor(bench, undefined).map(({ words }) => (
          <button
            key={words}
            type="button"
            className="lw-bench-chip"
            aria-pressed={reason === words}
            onClick={() => setReason(words)}
          >
            {words}
          </button>
        ))}
      </div>
      <Checkbox
        size="md"
        label="Thought to be heritable"
        checked={heritable}
        onChange={(event) => setHeritable(event.currentTarget.checked)}
      />
      {heritable && (
        <NativeSelect
          label="Locus it is put down to"
          value={locusId}
          onChange={(event) => {
            setLocusId(event.currentTarget.value);
            setPhenotype('');
          }}
          data={[
            { value: '', label: 'none in particular' },
            ...bench.loci.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      )}
      {heritable && locus !== undefined && (
        <NativeSelect
          label="Count them in this class"
          description="The brood’s class counts speak of the parents; count the sound fry too."
          value={phenotype}
          onChange={(event) => setPhenotype(event.currentTarget.value)}
          data={[{ value: '', label: 'do not count' }, ...phenotypesOf(locus)]}
        />
      )}
      <CullCaution />
      {slip !== null && (
        <p className="lw-field-error" role="alert">
          {slip}
        </p>
      )}
      <div className="lw-form-buttons">
        <Button type="submit" size="md" className="lw-primary">
          Record the cull
        </Button>
        <Button size="md" onClick={onClose}>
          Not now
        </Button>
      </div>
    </form>
  );
}
