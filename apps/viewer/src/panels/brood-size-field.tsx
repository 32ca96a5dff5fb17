import { TextInput } from '@mantine/core';
import { wholeNumber } from '../components/field-rules.js';

const rule = wholeNumber(1, 5000);

/** The number of young that was typed; null when it is none that classes are counted for. */
export function broodSizeIn(typed: string): number | null {
  const size = rule.safeParse(typed);
  return size.success ? size.data : null;
}

interface BroodSizeFieldProps {
  label: string;
  typed: string;
  onTyped: (typed: string) => void;
}

/** For how many young classes are counted. */
export function BroodSizeField({ label, typed, onTyped }: BroodSizeFieldProps) {
  return (
    <div className="lw-filter">
      <TextInput
        label={label}
        inputMode="numeric"
        value={typed}
        error={rule.safeParse(typed).error?.issues[0]?.message}
        onChange={(event) => onTyped(event.currentTarget.value)}
      />
    </div>
  );
}
