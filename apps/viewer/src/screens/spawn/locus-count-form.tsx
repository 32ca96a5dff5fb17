import { zodResolver } from '@hookform/resolvers/zod';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { LOCUS_CHOICES, type LocusChoice } from '../../api/heredity.js';
import { useRead } from '../../api/use-read.js';
import {
  optionalText,
  optionalWholeNumber,
  requiredDate,
  requiredId,
} from '../../components/field-rules.js';
import { ChoiceField, DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';
import { countedClasses, useClassCounts } from './use-class-counts.js';

const schema = z.object({
  locusId: requiredId('Choose the locus.'),
  countedOn: requiredDate,
  numbers: z.array(optionalWholeNumber),
  note: optionalText,
});

interface LocusCountFormProps {
  spawnId: string;
  onClose: () => void;
}

/** Counts a brood by what is seen at one locus, whatever is known of its parents. */
export function LocusCountForm({ spawnId, onClose }: LocusCountFormProps) {
  const loci = useRead(LOCUS_CHOICES, {});
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { locusId: '', countedOn: today(), numbers: [] as string[], note: '' },
  });
  const { keep, saved, saving, problem } = useClassCounts(spawnId);
  const locusId = useWatch({ control: form.control, name: 'locusId' });
  const usable = (loci.data?.loci ?? []).filter((one) => one.computable && !one.isWithdrawn);
  const visible = usable.find((one) => one.id === locusId)?.visible ?? [];
  const record = async ({ numbers, countedOn, note }: z.output<typeof schema>) => {
    const names = visible.map(({ name }) => name);
    const counted = countedClasses(names, numbers);
    if (counted.length === 0)
      form.setError('numbers.0', { message: 'Give the number of at least one class.' });
    else if (await keep(counted, { locusIds: [locusId], countedOn, note })) onClose();
  };
  const parts = { form, saving, problem, onCancel: onClose };
  return (
    <RecordForm {...parts} submit="Save counts" onSubmit={record}>
      <LocusField usable={usable} />
      <DateField name="countedOn" label="Counted on" required />
      <ClassFields visible={visible} locusId={locusId} saved={saved} />
      <TextField name="note" label="Note" />
    </RecordForm>
  );
}

function LocusField({ usable }: { usable: readonly LocusChoice[] }) {
  return (
    <ChoiceField
      name="locusId"
      label="Locus"
      required
      choices={[
        { value: '', label: 'choose' },
        ...usable.map((one) => ({ value: one.id, label: one.name })),
      ]}
    />
  );
}

function ClassFields({
  visible,
  locusId,
  saved,
}: {
  visible: { id: string; name: string }[];
  locusId: string;
  saved: ReadonlySet<string>;
}) {
  return (
    visible.length > 0 && (
      <FieldRow>
        {visible.map((one, i) => (
          <NumberField
            key={`${locusId} ${one.id}`}
            name={`numbers.${i}`}
            label={one.name}
            hint={saved.has(one.name) ? 'saved' : 'Whole fish; 0 where there was none.'}
          />
        ))}
      </FieldRow>
    )
  );
}
