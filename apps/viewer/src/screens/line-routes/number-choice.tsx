import { NativeSelect } from '@mantine/core';

interface NumberChoiceProps {
  label: string;
  value: number;
  /** What can be chosen, in order. */
  of: readonly number[];
  text?: (value: number) => string;
  className?: string | undefined;
  onChange: (value: number) => void;
}

/** One of a few numbers. */
export function NumberChoice({ value, of, text = String, onChange, ...rest }: NumberChoiceProps) {
  return (
    <NativeSelect
      {...rest}
      value={String(value)}
      data={of.map((one) => ({ value: String(one), label: text(one) }))}
      onChange={(event) => onChange(Number(event.currentTarget.value))}
    />
  );
}
