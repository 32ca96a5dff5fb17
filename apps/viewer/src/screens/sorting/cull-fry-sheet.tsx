import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { Sheet } from '../../components/sheet.js';
import { CullCaution } from '../fish/decision-cautions.js';
import type { Bench } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';
import type { TypedCull } from './cull-count.js';
import { phenotypesOf, reasonsFor } from './reasons.js';
import { useCullFry } from './use-cull-fry.js';
import styles from './sorting.module.css';

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

function CullFryForm(props: CullFrySheetProps) {
  const { bench, onClose } = props;
  const { typed, type, slips, warned, save } = useCullFry(props);
  const { number, heritable } = typed;
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
        onChange={(event) => type({ number: event.currentTarget.value })}
      />
      <CullReason bench={bench} typed={typed} slip={slips.reason} type={type} />
      <Checkbox
        size="md"
        label="Thought to be heritable"
        checked={heritable}
        onChange={(event) => type({ heritable: event.currentTarget.checked })}
      />
      {heritable && <HeritableCause bench={bench} typed={typed} type={type} />}
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

interface PartProps {
  bench: Bench;
  typed: TypedCull;
  type: (given: Partial<TypedCull>) => void;
}

function CullReason({ bench, typed, slip, type }: PartProps & { slip: string | undefined }) {
  return (
    <>
      <TextInput
        label="Reason"
        value={typed.reason}
        error={slip}
        onChange={(event) => type({ reason: event.currentTarget.value })}
      />
      <div className={styles['chips']} role="group" aria-label="Reasons used before">
        {reasonsFor(bench, undefined).map(({ words }) => (
          <button
            key={words}
            type="button"
            className={styles['chip']}
            aria-pressed={typed.reason === words}
            onClick={() => type({ reason: words })}
          >
            {words}
          </button>
        ))}
      </div>
    </>
  );
}

/** Where the fault is thought to come from, and the class that the fry are counted in. */
function HeritableCause({ bench, typed: { locusId, phenotype }, type }: PartProps) {
  const locus = bench.loci.find((each) => each.id === locusId);
  return (
    <>
      <NativeSelect
        label="Locus thought to cause it"
        value={locusId}
        onChange={(event) => type({ locusId: event.currentTarget.value, phenotype: '' })}
        data={[
          { value: '', label: 'none in particular' },
          ...bench.loci.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      {locus !== undefined && (
        <NativeSelect
          label="Count them in this class"
          description="Class counts of the brood tell about the parents; count the sound fry too."
          value={phenotype}
          onChange={(event) => type({ phenotype: event.currentTarget.value })}
          data={[{ value: '', label: 'do not count' }, ...phenotypesOf(locus)]}
        />
      )}
    </>
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
