import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { Cross } from '../../api/heredity.js';
import { optionalText, optionalWholeNumber, requiredDate } from '../../components/field-rules.js';
import { DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';
import { countedClasses, useClassCounts } from './use-class-counts.js';

interface ClassCountFormProps {
  spawnId: string;
  cross: Cross;
  onClose: () => void;
}

const schema = z
  .object({
    countedOn: requiredDate,
    numbers: z.array(optionalWholeNumber),
    otherClass: optionalText,
    otherNumber: optionalWholeNumber,
    note: optionalText,
  })
  .refine(({ otherClass, otherNumber }) => (otherClass === null) === (otherNumber === null), {
    path: ['otherNumber'],
    message: 'Give both the class and its number, or neither.',
  });

/** One number a class, and a class of one's own. */
export function ClassCountForm({ spawnId, cross, onClose }: ClassCountFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ countedOn: today(), numbers: cross.classes.map(() => '') },
      ...{ otherClass: '', otherNumber: '', note: '' },
    },
  });
  const { keep, saved, saving, problem } = useClassCounts(spawnId);
  const record = async ({ numbers, countedOn, note, ...other }: z.output<typeof schema>) => {
    const names = cross.classes.map(({ phenotype }) => phenotype);
    const { otherClass: phenotype, otherNumber: number } = other;
    const counted = [
      ...countedClasses(names, numbers),
      ...(phenotype === null || number === null ? [] : [{ phenotype, number }]),
    ];
    if (counted.length === 0)
      form.setError(names.length > 0 ? 'numbers.0' : 'otherNumber', {
        message: 'Give the number of at least one class.',
      });
    else if (await keep(counted, { locusIds: cross.locusIds, countedOn, note })) onClose();
  };
  const parts = { form, saving, problem, onCancel: onClose };
  return (
    <RecordForm {...parts} submit="Save class counts" onSubmit={record}>
      <DateField name="countedOn" label="Counted on" required />
      <ClassFields cross={cross} saved={saved} />
      <OtherClassFields />
      <TextField name="note" label="Note" />
    </RecordForm>
  );
}

function OtherClassFields() {
  return (
    <FieldRow>
      <TextField name="otherClass" label="Another class" hint="As you would name it." />
      <NumberField name="otherNumber" label="Number in that class" />
    </FieldRow>
  );
}

function ClassFields({ cross, saved }: { cross: Cross; saved: ReadonlySet<string> }) {
  return (
    cross.classes.length > 0 && (
      <FieldRow>
        {cross.classes.map((each, index) => (
          <NumberField
            key={each.phenotype}
            name={`numbers.${index}`}
            label={each.phenotype}
            hint={`expected ${each.fraction}${saved.has(each.phenotype) ? ', saved' : ''}`}
          />
        ))}
      </FieldRow>
    )
  );
}
