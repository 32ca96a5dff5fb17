import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_CARE, UNDO_CARE, type LogRecord } from '../../api/care.js';
import { useSave } from '../../api/use-save.js';
import { zoneHere } from '../../clock/clock.js';
import { optionalText, requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { WithdrawForm } from '../../components/withdraw-form.js';
import { toLocalTimeText } from '../../wording/figures.js';

const schema = z.object({ at: requiredText('Give the time it happened.'), note: optionalText });

interface LogRecordFormProps {
  spawnId: string;
  record: LogRecord;
  onClose: () => void;
}

/** Corrects a record's time and note, or takes the record back; the plan follows either. */
export function LogRecordForm(props: LogRecordFormProps) {
  return (
    <>
      <CorrectRecord {...props} />
      <h3>Or withdraw it</h3>
      <WithdrawRecord {...props} />
    </>
  );
}

function CorrectRecord({ spawnId, record, onClose }: LogRecordFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { at: toLocalTimeText(new Date(record.at)), note: record.note ?? '' },
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
          ...{ spawnId, recordId: record.id, revision: record.revision },
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

function WithdrawRecord({ spawnId, record, onClose }: LogRecordFormProps) {
  const { save, saving, problem } = useSave(UNDO_CARE);
  return (
    <WithdrawForm
      what={`“${record.title}”`}
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (reason) => {
        const input = { spawnId, recordId: record.id, reason, zone: zoneHere() };
        if ((await save({ input })) !== null) onClose();
      }}
    />
  );
}
