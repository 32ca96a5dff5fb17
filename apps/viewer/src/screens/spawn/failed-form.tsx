import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_SPAWN, type SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';

const schema = z.object({
  failedReason: requiredText('Say how it failed, such as: eggs eaten, eggs went white.'),
});

interface FailedFormProps {
  spawn: SpawnFacts;
  onSaved: () => void;
  onCancel: () => void;
}

export function FailedForm({ spawn, onSaved, onCancel }: FailedFormProps) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: { failedReason: '' } });
  const { save, saving, problem } = useSave(CORRECT_SPAWN);
  return (
    <RecordForm
      form={form}
      submit="Record as failed"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ failedReason }) => {
        const input = { id: spawn.id, revision: spawn.revision, failed: true, failedReason };
        if ((await save({ input })) !== null) onSaved();
      }}
    >
      <p>A failed spawn is kept: it tells about the pair and about the water.</p>
      <TextField name="failedReason" label="How it failed" required autoFocus />
    </RecordForm>
  );
}
