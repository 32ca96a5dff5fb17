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
export function EntryForm({ spawnId, entry, onClose }: EntryFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { at: toLocalTimeText(new Date(entry.at)), note: entry.note ?? '' },
  });
  const correcting = useSave(CORRECT_CARE);
  const undoing = useSave(UNDO_CARE);
  return (
    <>
      <RecordForm
        form={form}
        submit="Save"
        saving={correcting.saving}
        problem={correcting.problem}
        onCancel={onClose}
        onSubmit={async ({ at, note }) => {
          const input = {
            spawnId,
            entryId: entry.id,
            revision: entry.revision,
            at: new Date(at).toISOString(),
            note,
            zone: zoneHere(),
          };
          if ((await correcting.save({ input })) !== null) onClose();
        }}
      >
        <TextField name="at" label="When" type="datetime-local" required />
        <TextField name="note" label="Note" />
      </RecordForm>
      <h3>Or withdraw it</h3>
      <WithdrawForm
        what={`“${entry.title}”`}
        saving={undoing.saving}
        problem={undoing.problem}
        onCancel={onClose}
        onSubmit={async (reason) => {
          const input = { spawnId, entryId: entry.id, reason, zone: zoneHere() };
          if ((await undoing.save({ input })) !== null) onClose();
        }}
      />
    </>
  );
}
