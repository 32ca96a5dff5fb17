import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { Problem } from '../api/problem.js';
import { requiredText } from './field-rules.js';
import { TextField } from './fields.js';
import { RecordForm } from './record-form.js';
import { Sheet } from './sheet.js';

interface WithdrawFormProps {
  /** What is withdrawn: "fish T24-07-12". */
  what: string;
  /** The verb of the button; "Withdraw" unless given. */
  verb?: string;
  onSubmit: (reason: string) => unknown;
  onCancel: () => void;
  saving: boolean;
  problem: Problem | null;
}

const schema = z.object({
  reason: requiredText('Say why, so that the history can be understood later.'),
});

/** Asks for the reason of a withdrawal. Nothing is deleted: the record stays in the history. */
export function WithdrawForm({ what, verb = 'Withdraw', ...rest }: WithdrawFormProps) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: { reason: '' } });
  return (
    <RecordForm
      form={form}
      submit={verb}
      danger
      saving={rest.saving}
      problem={rest.problem}
      onCancel={rest.onCancel}
      onSubmit={({ reason }) => rest.onSubmit(reason)}
    >
      <p>
        {verb} {what}: it leaves the lists but stays in the history with your reason.
      </p>
      <TextField name="reason" label="Reason" required autoFocus />
    </RecordForm>
  );
}

interface WithdrawSheetProps extends Omit<WithdrawFormProps, 'onCancel'> {
  title: string;
  opened: boolean;
  onClose: () => void;
}

/** The same over the screen. */
export function WithdrawSheet({ title, opened, onClose, ...form }: WithdrawSheetProps) {
  return (
    <Sheet title={title} opened={opened} onClose={onClose}>
      <WithdrawForm {...form} onCancel={onClose} />
    </Sheet>
  );
}
