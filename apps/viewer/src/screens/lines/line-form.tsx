import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_LINE, CREATE_LINE, LINE, type LineFacts } from '../../api/lines.js';
import { useCorrection } from '../../api/use-correction.js';
import { useSave } from '../../api/use-save.js';
import { conflictsBetween } from '../../components/conflicts-between.js';
import { CorrectionForm } from '../../components/correction-form.js';
import { optionalText, requiredText } from '../../components/field-rules.js';
import { LongTextField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';

const schema = z.object({
  code: requiredText('Give a short code, such as T; tags begin with it.'),
  name: requiredText('Give the line a name.'),
  goal: optionalText,
});

function LineFields() {
  return (
    <>
      <FieldRow>
        <TextField
          name="code"
          label="Code"
          hint="A letter or two; tags begin with it."
          required
          autoFocus
        />
        <TextField name="name" label="Name" required />
      </FieldRow>
      <LongTextField name="goal" label="Goal" hint="What this line is bred towards." />
    </>
  );
}

interface FormEnds {
  onSaved: () => void;
  onCancel: () => void;
}

interface NewLineFormProps {
  onSaved: (id: string) => void;
  onCancel?: () => void;
}

export function NewLineForm({ onSaved, onCancel }: NewLineFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { code: '', name: '', goal: '' },
  });
  const { save, saving, problem } = useSave(CREATE_LINE);
  return (
    <RecordForm
      form={form}
      submit="Save line"
      saving={saving}
      problem={problem}
      {...(onCancel === undefined ? {} : { onCancel })}
      onSubmit={async (values) => {
        const saved = await save({ input: values });
        if (saved !== null) onSaved(saved.createLine.id);
      }}
    >
      <LineFields />
    </RecordForm>
  );
}

const names = { code: 'Code', name: 'Name', goal: 'Goal' };
type Values = z.input<typeof schema>;

const valuesOf = (line: LineFacts): Values => ({
  code: line.code,
  name: line.name,
  goal: line.goal ?? '',
});

export function CorrectLineForm({ line, onSaved, onCancel }: FormEnds & { line: LineFacts }) {
  const correction = useCorrection({
    record: line,
    mutation: CORRECT_LINE,
    query: LINE,
    factsIn: (found) => found.line,
  });
  const { opened } = correction;
  const form = useForm({ resolver: zodResolver(schema), defaultValues: valuesOf(opened) });
  return (
    <CorrectionForm
      {...{ form, correction, onSaved, onCancel }}
      sent={(values, revision) => ({ input: { id: opened.id, revision, ...values } })}
      conflictsWith={(recorded) => conflictsBetween(names, form.getValues(), valuesOf(recorded))}
    >
      <LineFields />
    </CorrectionForm>
  );
}
