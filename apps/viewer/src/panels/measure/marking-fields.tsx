import { Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { FieldRow } from '../../components/record-form.js';
import { useUnsaved } from '../../components/unsaved.js';
import type { Draft } from './marking-draft.js';

interface MarkingFieldsProps {
  draft: Draft;
  onDraft: (change: (before: Draft) => Draft) => void;
}

/** What points alone do not say. */
export function MarkingFields({ draft, onDraft }: MarkingFieldsProps) {
  useUnsaved(draft.places.some(({ at }) => at !== null));
  const set = (changes: Partial<Draft>) => onDraft((before) => ({ ...before, ...changes }));
  return (
    <>
      <FieldRow>
        {draft.kind === 'spread' && (
          <NativeSelect
            label="The head points"
            value={draft.heads}
            data={[
              { value: 'left', label: 'to the left' },
              { value: 'right', label: 'to the right' },
            ]}
            onChange={(event) =>
              set({ heads: event.currentTarget.value === 'right' ? 'right' : 'left' })
            }
          />
        )}
        {draft.kind === 'length' && (
          <TextInput
            label="Length of the scale"
            description="In millimetres."
            inputMode="decimal"
            value={draft.millimetres}
            onChange={(event) => set({ millimetres: event.currentTarget.value })}
          />
        )}
        {draft.kind === 'colour' && (
          <TextInput
            label="How far from the colour still counts"
            description="5: only what looks the same. 60: almost anything."
            type="number"
            min={1}
            max={100}
            value={draft.tolerance}
            onChange={(event) => set({ tolerance: Number(event.currentTarget.value) || 1 })}
          />
        )}
      </FieldRow>
      <Checkbox
        label="The fish stands side on, flat in the picture"
        checked={draft.flat}
        onChange={(event) => set({ flat: event.currentTarget.checked })}
      />
    </>
  );
}
