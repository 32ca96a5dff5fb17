import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { Cross } from '../../api/heredity.js';
import { RECORD_CLASS_COUNT } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { optionalText, optionalWholeNumber, requiredDate } from '../../components/field-rules.js';
import { DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';

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

/** One number a class. Classes saved before a failure are not sent twice. */
export function ClassCountForm({ spawnId, cross, onClose }: ClassCountFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      countedOn: today(),
      numbers: cross.classes.map(() => ''),
      otherClass: '',
      otherNumber: '',
      note: '',
    },
  });
  const [saved, setSaved] = useState<ReadonlySet<string>>(new Set());
  const { save, saving, problem } = useSave(RECORD_CLASS_COUNT);
  return (
    <RecordForm
      form={form}
      submit="Save class counts"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async ({ countedOn, numbers, otherClass, otherNumber, note }) => {
        const counted = cross.classes.flatMap((each, index) => {
          const number = numbers[index] ?? null;
          return number === null ? [] : [{ phenotype: each.phenotype, number }];
        });
        if (otherClass !== null && otherNumber !== null) {
          counted.push({ phenotype: otherClass, number: otherNumber });
        }
        if (counted.length === 0) {
          form.setError(cross.classes.length > 0 ? 'numbers.0' : 'otherNumber', {
            message: 'Give the number of at least one class.',
          });
          return;
        }
        for (const each of counted.filter(({ phenotype }) => !saved.has(phenotype))) {
          const input = { spawnId, locusIds: cross.locusIds, countedOn, note, ...each };
          if ((await save({ input })) === null) return;
          setSaved((before) => new Set(before).add(each.phenotype));
        }
        onClose();
      }}
    >
      <DateField name="countedOn" label="Counted on" required />
      <ClassFields cross={cross} saved={saved} />
      <FieldRow>
        <TextField name="otherClass" label="Another class" hint="As you would name it." />
        <NumberField name="otherNumber" label="Number in that class" />
      </FieldRow>
      <TextField name="note" label="Note" />
    </RecordForm>
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
