import { Checkbox, NativeSelect, PasswordInput, Textarea, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import { useController, useFormContext } from 'react-hook-form';
import { useShownField } from './shown-fields.js';

interface FieldProps {
  name: string;
  label: string;
  hint?: ReactNode;
  required?: boolean;
}

function useField(name: string) {
  useShownField(name);
  const { register, getFieldState, formState } = useFormContext();
  const { error } = getFieldState(name, formState);
  return { registered: register(name), error: error?.message };
}

interface TextFieldProps extends FieldProps {
  type?: 'text' | 'date' | 'datetime-local';
  /** Shown after the input, such as a unit. */
  unit?: string | null;
  decimal?: boolean;
  autoComplete?: string;
  autoFocus?: boolean;
  /** Takes the focus when it appears: for a field that the last answer asked for. */
  atOnce?: boolean;
}

export function TextField({
  name,
  label,
  hint,
  required = false,
  unit,
  decimal,
  type = 'text',
  ...rest
}: TextFieldProps) {
  const { registered, error } = useField(name);
  return (
    <TextInput
      label={label}
      description={hint}
      withAsterisk={required}
      required={required}
      error={error}
      type={type}
      autoComplete={rest.autoComplete ?? 'off'}
      {...(decimal === true ? { inputMode: 'decimal' as const } : {})}
      {...(unit != null
        ? { rightSection: <span className="lw-unit">{unit}</span>, rightSectionWidth: 64 }
        : {})}
      {...(rest.autoFocus === true ? { 'data-autofocus': true } : {})}
      {...(rest.atOnce === true ? { autoFocus: true } : {})}
      {...registered}
    />
  );
}

export function DateField(props: FieldProps) {
  return <TextField {...props} type="date" />;
}

/** A number typed as text: the form's schema reads it, so that a slip is explained and not swallowed. */
export function NumberField(props: FieldProps & { unit?: string | null }) {
  return <TextField {...props} decimal />;
}

export function SecretField({
  name,
  label,
  hint,
  autoComplete,
}: FieldProps & { autoComplete: string }) {
  const { registered, error } = useField(name);
  return (
    <PasswordInput
      label={label}
      description={hint}
      required
      withAsterisk
      error={error}
      autoComplete={autoComplete}
      {...registered}
    />
  );
}

export function LongTextField({ name, label, hint, required = false }: FieldProps) {
  const { registered, error } = useField(name);
  return (
    <Textarea
      label={label}
      description={hint}
      required={required}
      withAsterisk={required}
      error={error}
      {...registered}
    />
  );
}

export interface Choice {
  value: string;
  label: string;
}

/** Controlled, so that a value whose choice arrives late (lines, loci) still shows. */
export function ChoiceField({
  name,
  label,
  hint,
  required = false,
  choices,
  onChosen,
}: FieldProps & { choices: readonly Choice[]; onChosen?: (value: string) => void }) {
  useShownField(name);
  const { field, fieldState } = useController({ name });
  return (
    <NativeSelect
      label={label}
      description={hint}
      required={required}
      withAsterisk={required}
      error={fieldState.error?.message}
      data={[...choices]}
      name={field.name}
      ref={field.ref}
      value={typeof field.value === 'string' ? field.value : ''}
      onChange={(event) => {
        field.onChange(event);
        onChosen?.(event.currentTarget.value);
      }}
      onBlur={field.onBlur}
    />
  );
}

export function TickField({ name, label, hint }: FieldProps) {
  const { registered, error } = useField(name);
  return <Checkbox label={label} description={hint} error={error} {...registered} />;
}
