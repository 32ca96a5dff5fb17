import { Button } from '@mantine/core';
import { useEffect, useState, type ReactNode } from 'react';
import { FormProvider, type FieldValues, type UseFormReturn } from 'react-hook-form';
import { isOfFields, messageOf, type FieldProblem, type Problem } from '../api/problem.js';
import { ProblemNotice } from './notice.js';
import { fieldOf, ShownFields } from './shown-fields.js';

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
  const [shown] = useState(() => new Set<string>());
  const [rest, setRest] = useState<Problem | null>(null);
  useEffect(() => {
    const elsewhere: FieldProblem[] = [];
    let shouldFocus = true;
    for (const each of problem?.fields ?? []) {
      const name = fieldOf(each, shown);
      if (name === null) elsewhere.push(each);
      else {
        form.setError(name as never, { type: 'server', message: each.message }, { shouldFocus });
        shouldFocus = false;
      }
    }
    setRest(problem === null ? null : restOf(problem, elsewhere));
    // Runs once for each answer of the API, not for each change of the form.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [problem]);
  return (
    <FormProvider {...form}>
      <ShownFields value={shown}>
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
      </ShownFields>
    </FormProvider>
  );
}

/** What is left to say when each field says its own; nothing when that is all. */
function restOf(problem: Problem, elsewhere: FieldProblem[]): Problem | null {
  if (problem.fields.length === 0) return problem;
  if (!isOfFields(problem)) return { ...problem, fields: elsewhere };
  if (elsewhere.length === 0) return null;
  return { ...problem, message: messageOf(elsewhere), fields: elsewhere };
}

/** Fields side by side where there is room. */
export function FieldRow({ children }: { children: ReactNode }) {
  return <div className="lw-field-row">{children}</div>;
}
