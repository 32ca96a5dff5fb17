import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { useClient } from 'urql';
import { z } from 'zod';
import { CORRECT_LINE, CREATE_LINE, LINE, type LineFacts } from '../../api/lines.js';
import { useSave } from '../../api/use-save.js';
import { ConflictNotice, type FieldConflict } from '../../components/conflict-notice.js';
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

export function NewLineForm({ onSaved, onCancel }: FormEnds) {
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
      onCancel={onCancel}
      onSubmit={async (values) => {
        if ((await save({ input: values })) !== null) onSaved();
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
  const client = useClient();
  const [opened] = useState(line);
  const [saved, setSaved] = useState<LineFacts | null>(null);
  const form = useForm({ resolver: zodResolver(schema), defaultValues: valuesOf(opened) });
  const correction = useSave(CORRECT_LINE);
  const conflict = correction.problem?.code === 'CONFLICT_REVISION';
  const submit = (revision: number) => async (values: z.output<typeof schema>) => {
    if ((await correction.save({ input: { id: opened.id, revision, ...values } })) !== null) {
      onSaved();
      return;
    }
    const now = await client
      .query(LINE, { id: opened.id }, { requestPolicy: 'network-only' })
      .toPromise();
    setSaved(now.data?.line ?? null);
  };
  return (
    <RecordForm
      form={form}
      submit="Save correction"
      saving={correction.saving}
      problem={conflict && saved !== null ? null : correction.problem}
      onCancel={onCancel}
      onSubmit={submit(opened.revision)}
    >
      <LineFields />
      {conflict && saved !== null && (
        <ConflictNotice
          conflicts={conflictsBetween(form.getValues(), valuesOf(saved))}
          onKeepMine={() => void form.handleSubmit(submit(saved.revision))()}
          onTakeSaved={onSaved}
        />
      )}
    </RecordForm>
  );
}

function conflictsBetween(mine: Values, theirs: Values): FieldConflict[] {
  return (Object.keys(names) as (keyof Values)[])
    .filter((field) => mine[field] !== theirs[field])
    .map((field) => ({ field: names[field], mine: mine[field], saved: theirs[field] }));
}
