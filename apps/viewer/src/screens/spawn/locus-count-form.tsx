import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { LOCUS_CHOICES } from '../../api/heredity.js';
import { RECORD_CLASS_COUNT } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import {
  optionalText,
  optionalWholeNumber,
  requiredDate,
  requiredId,
} from '../../components/field-rules.js';
import { ChoiceField, DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';

const schema = z.object({
  locusId: requiredId('Choose the locus.'),
  countedOn: requiredDate,
  numbers: z.array(optionalWholeNumber),
  note: optionalText,
});

/** Counts a brood by what is seen at one locus, whatever is known of its parents. */
export function LocusCountForm({ spawnId, onClose }: { spawnId: string; onClose: () => void }) {
  const loci = useRead(LOCUS_CHOICES, {});
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { locusId: '', countedOn: today(), numbers: [] as string[], note: '' },
  });
  const [saved, setSaved] = useState<ReadonlySet<string>>(new Set());
  const { save, saving, problem } = useSave(RECORD_CLASS_COUNT);
  const locusId = useWatch({ control: form.control, name: 'locusId' });
  const usable = (loci.data?.loci ?? []).filter((one) => one.computable && !one.isWithdrawn);
  const visible = usable.find((one) => one.id === locusId)?.visible ?? [];
  return (
    <RecordForm
      form={form}
      submit="Save counts"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async ({ countedOn, numbers, note }) => {
        const counted = visible.flatMap((one, i) => {
          const number = numbers[i] ?? null;
          return number === null ? [] : [{ phenotype: one.name, number }];
        });
        if (counted.length === 0) {
          form.setError('numbers.0', { message: 'Give the number of at least one class.' });
          return;
        }
        for (const each of counted.filter(({ phenotype }) => !saved.has(phenotype))) {
          const input = { spawnId, locusIds: [locusId], countedOn, note, ...each };
          if ((await save({ input })) === null) return;
          setSaved((before) => new Set(before).add(each.phenotype));
        }
        onClose();
      }}
    >
      <ChoiceField
        name="locusId"
        label="Locus"
        required
        choices={[
          { value: '', label: 'choose' },
          ...usable.map((one) => ({ value: one.id, label: one.name })),
        ]}
      />
      <DateField name="countedOn" label="Counted on" required />
      <ClassFields visible={visible} locusId={locusId} saved={saved} />
      <TextField name="note" label="Note" />
    </RecordForm>
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
