import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Sheet } from '../../components/sheet.js';
import { useUnsaved } from '../../components/unsaved.js';
import { plural } from '../../wording/figures.js';
import { CullCaution } from '../fish/decide-form.js';
import { tooMany } from '../../wording/brood-left.js';
import { phenotypesOf, reasonsFor } from './reasons.js';
import type { BenchParts } from './bench-parts.js';
import styles from './sorting.module.css';
import type { Bench } from './bench-facts.js';
import type { BenchFacts } from '../../api/entries.js';

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
  const [slips, setSlips] = useState<{ number?: string; reason?: string }>({});
  const [warned, setWarned] = useState<string | null>(null);
  useUnsaved(number !== '' || reason !== '' || heritable);
  const locus = bench.loci.find((each) => each.id === locusId);
  const save = async () => {
    const count = Number(number);
    const wrong = {
      ...((!Number.isInteger(count) || count < 1 || count > 5000) && {
        number: 'Give a whole number of fry, 1 to 5000.',
      }),
      ...(reason.trim() === '' && {
        reason: 'Give the reason: it is used to judge the line later.',
      }),
    };
    setSlips(wrong);
    if (Object.keys(wrong).length > 0) return undefined;
    const excess = tooMany(bench.brood, count);
    if (excess !== null && warned !== excess) return setWarned(excess);
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
        error={slips.number}
        onChange={(event) => {
          setNumber(event.currentTarget.value);
          setWarned(null);
        }}
      />
      <TextInput
        label="Reason"
        value={reason}
        error={slips.reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <UsedReasons bench={bench} reason={reason} setReason={setReason} />
      <Checkbox
        size="md"
        label="Thought to be heritable"
        checked={heritable}
        onChange={(event) => setHeritable(event.currentTarget.checked)}
      />
      {heritable && (
        <LocusChoice
          locusId={locusId}
          setLocusId={setLocusId}
          setPhenotype={setPhenotype}
          bench={bench}
        />
      )}
      <ClassChoice
        heritable={heritable}
        locus={locus}
        phenotype={phenotype}
        setPhenotype={setPhenotype}
      />
      <CullCaution />
      {warned !== null && (
        <div className="lw-notice lw-notice-problem" role="alert">
          <p>{warned}</p>
        </div>
      )}
      <CullButtons warned={warned} number={number} onClose={onClose} />
    </form>
  );
}

function CullButtons({
  warned,
  number,
  onClose,
}: {
  warned: string | null;
  number: string;
  onClose: () => void;
}) {
  return (
    <div className="lw-form-buttons">
      <Button type="submit" size="md" className="lw-primary">
        {warned === null ? 'Record the cull' : `Record ${number} anyway`}
      </Button>
      <Button size="md" onClick={onClose}>
        Cancel
      </Button>
    </div>
  );
}

function ClassChoice({
  heritable,
  locus,
  phenotype,
  setPhenotype,
}: {
  heritable: boolean;
  locus: BenchFacts['loci'][number] | undefined;
  phenotype: string;
  setPhenotype: Dispatch<SetStateAction<string>>;
}) {
  return (
    heritable &&
    locus !== undefined && (
      <NativeSelect
        label="Count them in this class"
        description="Class counts of the brood tell about the parents; count the sound fry too."
        value={phenotype}
        onChange={(event) => setPhenotype(event.currentTarget.value)}
        data={[{ value: '', label: 'do not count' }, ...phenotypesOf(locus)]}
      />
    )
  );
}

function LocusChoice({
  locusId,
  setLocusId,
  setPhenotype,
  bench,
}: {
  locusId: string;
  setLocusId: Dispatch<SetStateAction<string>>;
  setPhenotype: Dispatch<SetStateAction<string>>;
  bench: Bench;
}) {
  return (
    <NativeSelect
      label="Locus thought to cause it"
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
  );
}

function UsedReasons({
  bench,
  reason,
  setReason,
}: {
  bench: Bench;
  reason: string;
  setReason: Dispatch<SetStateAction<string>>;
}) {
  return (
    <div className={styles['chips']} role="group" aria-label="Reasons used before">
      {reasonsFor(bench, undefined).map(({ words }) => (
        <button
          key={words}
          type="button"
          className={styles['chip']}
          aria-pressed={reason === words}
          onClick={() => setReason(words)}
        >
          {words}
        </button>
      ))}
    </div>
  );
}
