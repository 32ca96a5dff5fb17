import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { RECORD_CARE } from '../../api/care.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { zoneHere } from '../../clock/clock.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { instantOf } from '../../wording/care-words.js';
import { newId } from '../../api/new-id.js';

const schema = z.object({
  failedReason: requiredText('Say how it failed, such as: eggs eaten, eggs went white.'),
  at: z.string(),
});

interface FailedFormProps {
  spawn: SpawnFacts;
  onSaved: () => void;
  onCancel: () => void;
}

export function FailedForm({ spawn, onSaved, onCancel }: FailedFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { failedReason: '', at: '' },
  });
  const { save, saving, problem } = useSave(RECORD_CARE);
  return (
    <RecordForm
      form={form}
      submit="Record as failed"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ failedReason, at }) => {
        const input = {
          id: newId(),
          spawnId: spawn.id,
          step: 'failed',
          at: instantOf(at),
          note: failedReason,
          zone: zoneHere(),
        };
        if ((await save({ input })) !== null) onSaved();
      }}
    >
      <p>
        A failed spawn is kept: it tells about the pair and about the water. Its calendar ends;
        withdraw the record in the log if it was a mistake.
      </p>
      <TextField name="failedReason" label="How it failed" required autoFocus />
      <TextField name="at" label="When it was seen" type="datetime-local" hint="Blank: now." />
    </RecordForm>
  );
}
