import { Button } from '@mantine/core';
import { useEffect, type ReactNode } from 'react';
import { FormProvider, type FieldValues, type UseFormReturn } from 'react-hook-form';
import type { Problem } from '../api/problem.js';
import { ProblemNotice } from './notice.js';

interface RecordFormProps<Input extends FieldValues, Output> {
  form: UseFormReturn<Input, unknown, Output>;
  onSubmit: (values: Output) => unknown;
  submit: string;
  saving: boolean;
  problem: Problem | null;
  onCancel?: () => void;
  /** Wording of the way out; "Cancel" unless given. */
  cancel?: string;
  danger?: boolean;
  children: ReactNode;
}

function lastStep(path: string): string {
  return path.slice(path.lastIndexOf('.') + 1);
}

/**
 * A form that keeps what was typed when a save fails, puts the API's field messages beside their fields and the rest
 * above the buttons.
 */
export function RecordForm<Input extends FieldValues, Output>({
  form,
  onSubmit,
  submit,
  saving,
  problem,
  onCancel,
  cancel = 'Cancel',
  danger = false,
  children,
}: RecordFormProps<Input, Output>) {
  const known = Object.keys(form.getValues());
  useEffect(() => {
    for (const { field, message } of problem?.fields ?? []) {
      const name = lastStep(field);
      if (known.includes(name)) {
        form.setError(name as never, { type: 'server', message }, { shouldFocus: true });
      }
    }
    // Runs once for each answer of the API, not for each change of the form.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [problem]);
  const rest =
    problem === null
      ? null
      : {
          ...problem,
          fields: problem.fields.filter((each) => !known.includes(lastStep(each.field))),
        };
  return (
    <FormProvider {...form}>
      <form
        className="lw-form"
        noValidate
        onSubmit={(event) => {
          // A form in a sheet sits inside another form's tree: React would pass the event on.
          event.stopPropagation();
          void form.handleSubmit(async (values) => {
            await onSubmit(values);
          })(event);
        }}
      >
        {children}
        <ProblemNotice problem={rest} />
        <div className="lw-form-buttons">
          <Button
            type="submit"
            variant="filled"
            loading={saving}
            className={danger ? 'lw-danger' : 'lw-primary'}
          >
            {submit}
          </Button>
          {onCancel !== undefined && (
            <Button type="button" onClick={onCancel}>
              {cancel}
            </Button>
          )}
        </div>
      </form>
    </FormProvider>
  );
}

/** Fields side by side where there is room. */
export function FieldRow({ children }: { children: ReactNode }) {
  return <div className="lw-field-row">{children}</div>;
}
