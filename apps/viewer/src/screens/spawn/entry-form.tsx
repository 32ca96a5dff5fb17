import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_CARE, UNDO_CARE, type LogEntry } from '../../api/care.js';
import { useSave } from '../../api/use-save.js';
import { zoneHere } from '../../clock/clock.js';
import { optionalText, requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { WithdrawForm } from '../../components/withdraw-form.js';
import { toLocalTimeText } from '../../wording/figures.js';

const schema = z.object({ at: requiredText('Give the time it happened.'), note: optionalText });

interface EntryFormProps {
  spawnId: string;
  entry: LogEntry;
  onClose: () => void;
}

/** Corrects an entry's time and note, or takes the entry back; the plan follows either. */
export function EntryForm(props: EntryFormProps) {
  return (
    <>
      <CorrectEntry {...props} />
      <h3>Or withdraw it</h3>
      <WithdrawEntry {...props} />
    </>
  );
}

function CorrectEntry({ spawnId, entry, onClose }: EntryFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { at: toLocalTimeText(new Date(entry.at)), note: entry.note ?? '' },
  });
  const { save, saving, problem } = useSave(CORRECT_CARE);
  return (
    <RecordForm
      form={form}
      submit="Save"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async ({ at, note }) => {
        const input = {
          ...{ spawnId, entryId: entry.id, revision: entry.revision },
          ...{ at: new Date(at).toISOString(), note, zone: zoneHere() },
        };
        if ((await save({ input })) !== null) onClose();
      }}
    >
      <TextField name="at" label="When" type="datetime-local" required />
      <TextField name="note" label="Note" />
    </RecordForm>
  );
}

function WithdrawEntry({ spawnId, entry, onClose }: EntryFormProps) {
  const { save, saving, problem } = useSave(UNDO_CARE);
  return (
    <WithdrawForm
      what={`“${entry.title}”`}
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (reason) => {
        const input = { spawnId, entryId: entry.id, reason, zone: zoneHere() };
        if ((await save({ input })) !== null) onClose();
      }}
    />
  );
}
