import { Button } from '@mantine/core';
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { FormProvider, type FieldValues, type UseFormReturn } from 'react-hook-form';
import { isOfFields, messageOf, type FieldProblem, type Problem } from '../api/problem.js';
import { ProblemNotice } from './notice.js';
import { fieldOf, ShownFields } from './shown-fields.js';
import { useUnsaved } from './unsaved.js';

interface RecordFormProps<Input extends FieldValues, Output> {
  form: UseFormReturn<Input, unknown, Output>;
  /** `another`: by the button that begins another one. */
  onSubmit: (values: Output, another: boolean) => unknown;
  submit: string;
  /** Wording of a second button, which saves and begins another one. */
  submitAnother?: string;
  saving: boolean;
  problem: Problem | null;
  onCancel?: () => void;
  /** Wording of the way out; "Cancel" unless given. */
  cancel?: string;
  danger?: boolean;
  /** Nothing that would be missed, such as a password: it is left without a question. */
  fleeting?: boolean;
  children: ReactNode;
}

/**
 * A form that keeps what was typed when a save fails, puts the API's field messages beside their fields and the rest
 * above the buttons.
 */
export function RecordForm<Input extends FieldValues, Output>(
  props: RecordFormProps<Input, Output>,
) {
  const { form, onSubmit, problem, fleeting = false } = props;
  const [shown] = useState(() => new Set<string>());
  const saves = useSavesOf(form, fleeting);
  const rest = useProblemOf(form, problem, shown, saves.refused);
  return (
    <FormProvider {...form}>
      <ShownFields value={shown}>
        <form
          className="lw-form"
          noValidate
          onSubmit={(event) => {
            // A form in a sheet sits inside another form's tree: React would pass the event on.
            event.stopPropagation();
            const { submitter } = event.nativeEvent as SubmitEvent;
            const another = submitter?.getAttribute('value') === ANOTHER;
            void form.handleSubmit((values) => saves.under(() => onSubmit(values, another)))(event);
          }}
        >
          {props.children}
          <ProblemNotice problem={rest} />
          <FormButtons {...props} />
        </form>
      </ShownFields>
    </FormProvider>
  );
}

const ANOTHER = 'another';

type FormButtonsProps = Pick<
  RecordFormProps<FieldValues, unknown>,
  'submit' | 'submitAnother' | 'saving' | 'danger' | 'onCancel' | 'cancel'
>;

function FormButtons(props: FormButtonsProps) {
  const { submit, saving, danger = false, onCancel, cancel = 'Cancel' } = props;
  return (
    <div className="lw-form-buttons">
      <Button
        type="submit"
        variant="filled"
        loading={saving}
        className={danger ? 'lw-danger' : 'lw-primary'}
      >
        {submit}
      </Button>
      {props.submitAnother !== undefined && (
        <Button type="submit" value={ANOTHER} disabled={saving}>
          {props.submitAnother}
        </Button>
      )}
      {onCancel !== undefined && (
        <Button type="button" onClick={onCancel}>
          {cancel}
        </Button>
      )}
    </div>
  );
}

/** Puts what the API says of fields beside them, the first of them in focus; gives what is left to say above the buttons. */
function useProblemOf<Input extends FieldValues, Output>(
  form: UseFormReturn<Input, unknown, Output>,
  problem: Problem | null,
  shown: ReadonlySet<string>,
  onRefused: () => void,
): Problem | null {
  const [rest, setRest] = useState<Problem | null>(null);
  useEffect(() => {
    if (problem !== null) onRefused();
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
  return rest;
}

/** Knows whether what stands in a form is saved: what was sent counts as saved until the API refuses it. */
function useSavesOf<Input extends FieldValues, Output>(
  form: UseFormReturn<Input, unknown, Output>,
  fleeting: boolean,
) {
  const { isDirty } = form.formState;
  const underWay = useRef(false);
  const sent = useRef<string | null>(null);
  const typed = () => JSON.stringify(form.getValues());
  useUnsaved((leaving) => {
    if (fleeting || !isDirty) return false;
    // The screen that follows a save may come before the answer is seen here; only the person goes back or reloads.
    if (underWay.current) return leaving !== 'onward';
    return sent.current !== typed();
  });
  return {
    refused: () => {
      sent.current = null;
    },
    under: async (save: () => unknown) => {
      sent.current = typed();
      underWay.current = true;
      try {
        await save();
      } finally {
        underWay.current = false;
      }
    },
  };
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
