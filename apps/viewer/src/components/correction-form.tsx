import type { ReactNode } from 'react';
import type { FieldValues, UseFormReturn } from 'react-hook-form';
import type { Correction } from '../api/use-correction.js';
import { ConflictNotice, type FieldConflict } from './conflict-notice.js';
import { RecordForm } from './record-form.js';

interface CorrectionFormProps<Facts, Input extends FieldValues, Output, Variables> {
  form: UseFormReturn<Input, unknown, Output>;
  correction: Correction<Facts, Variables>;
  /** What is sent, under the revision that it corrects. */
  sent: (values: Output, revision: number) => Variables;
  conflictsWith: (recorded: Facts) => readonly FieldConflict[];
  onSaved: () => void;
  onCancel: () => void;
  children: ReactNode;
}

/** Corrects a record; when it was changed meanwhile, shows both versions. */
export function CorrectionForm<
  Facts extends { readonly revision: number },
  Input extends FieldValues,
  Output,
  Variables,
>({
  form,
  correction,
  sent,
  conflictsWith,
  onSaved,
  onCancel,
  children,
}: CorrectionFormProps<Facts, Input, Output, Variables>) {
  const { opened, changed } = correction;
  const submit = (revision: number) => async (values: Output) => {
    if (await correction.save(sent(values, revision))) onSaved();
  };
  return (
    <RecordForm
      form={form}
      submit="Save correction"
      saving={correction.saving}
      problem={correction.problem}
      onCancel={onCancel}
      onSubmit={submit(opened.revision)}
    >
      {children}
      {changed !== null && (
        <ConflictNotice
          conflicts={conflictsWith(changed)}
          onKeepMine={() => void form.handleSubmit(submit(changed.revision))()}
          onTakeSaved={onSaved}
        />
      )}
    </RecordForm>
  );
}
