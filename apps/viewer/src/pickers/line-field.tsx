import { LINE_CHOICES } from '../api/lines.js';
import { useRead } from '../api/use-read.js';
import { ChoiceField, type Choice } from '../components/fields.js';

/** The lines as choices: "T · Turquoise". */
export function useLineChoices(): Choice[] {
  const { data } = useRead(LINE_CHOICES, {});
  return (data?.lines ?? []).map(({ id, code, name }) => ({
    value: id,
    label: `${code} · ${name}`,
  }));
}

export function LineField({ name = 'lineId', label = 'Line' }: { name?: string; label?: string }) {
  const choices = useLineChoices();
  return (
    <ChoiceField
      name={name}
      label={label}
      choices={[{ value: '', label: 'no line' }, ...choices]}
    />
  );
}
