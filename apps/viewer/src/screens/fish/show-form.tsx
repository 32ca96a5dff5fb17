import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { newId } from '../../api/new-id.js';
import { CORRECT_SHOW_RESULT, RECORD_SHOW_RESULT, type ShowResult } from '../../api/shows.js';
import { useSave } from '../../api/use-save.js';
import {
  optionalNumber,
  optionalText,
  requiredDate,
  requiredText,
} from '../../components/field-rules.js';
import { DateField, LongTextField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';

const schema = z.object({
  show: requiredText('Name the show.'),
  onDate: requiredDate,
  class: requiredText('Name the class it was shown in.'),
  placing: optionalNumber.refine(
    (value) => value === null || (Number.isInteger(value) && value > 0),
    'Give 1 for the first, 2 for the second and so on, or leave it blank.',
  ),
  points: optionalNumber,
  note: optionalText,
});

interface ShowFormProps {
  fishId: string;
  /** To be corrected; absent for a new one. */
  result?: ShowResult;
  /** The class it was shown in last, offered again. */
  lastClass?: string;
  onDone: () => void;
}

const typed = (value: number | null | undefined): string => (value == null ? '' : String(value));

/** What a fish won at a show. */
export function ShowForm({ fishId, result, lastClass = '', onDone }: ShowFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ show: result?.show ?? '', onDate: result?.onDate ?? today() },
      ...{ class: result?.class ?? lastClass, placing: typed(result?.placing) },
      ...{ points: typed(result?.points), note: result?.note ?? '' },
    },
  });
  const [id] = useState(newId);
  const adding = useSave(RECORD_SHOW_RESULT);
  const correcting = useSave(CORRECT_SHOW_RESULT);
  const { saving, problem } = result === undefined ? adding : correcting;
  return (
    <RecordForm
      form={form}
      submit={result === undefined ? 'Save result' : 'Save correction'}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (values) => {
        const saved =
          result === undefined
            ? await adding.save({ input: { id, fishId, ...values } })
            : await correcting.save({
                input: { id: result.id, revision: result.revision, ...values },
              });
        if (saved !== null) onDone();
      }}
    >
      <FieldRow>
        <TextField name="show" label="Show" required />
        <DateField name="onDate" label="Day" required />
      </FieldRow>
      <TextField
        name="class"
        label="Class"
        hint="In your own words, such as “young males, long fins”."
        required
      />
      <FieldRow>
        <NumberField name="placing" label="Place" hint="1 is the first. Blank: not placed." />
        <NumberField name="points" label="Points" hint="Where the show gives some." />
      </FieldRow>
      <LongTextField name="note" label="The judge’s words" />
    </RecordForm>
  );
}
