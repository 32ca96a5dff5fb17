import { zodResolver } from '@hookform/resolvers/zod';
import type { ReactNode } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { Problem } from '../api/problem.js';
import { requiredText } from './field-rules.js';
import { TextField } from './fields.js';
import { RecordForm } from './record-form.js';
import { Sheet } from './sheet.js';

interface ReasonFormProps {
  /** The words of the button. */
  submit: string;
  danger?: boolean;
  onSubmit: (reason: string) => unknown;
  onCancel: () => void;
  saving: boolean;
  problem: Problem | null;
  /** What happens, in words. */
  children: ReactNode;
}

const schema = z.object({
  reason: requiredText('Say why, so that the history can be understood later.'),
});

/** Asks for the reason of something that the history keeps. */
export function ReasonForm({ onSubmit, children, ...rest }: ReasonFormProps) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: { reason: '' } });
  return (
    <RecordForm form={form} {...rest} onSubmit={({ reason }) => onSubmit(reason)}>
      {children}
      <TextField name="reason" label="Reason" required autoFocus />
    </RecordForm>
  );
}

interface WithdrawFormProps extends Omit<ReasonFormProps, 'submit' | 'danger' | 'children'> {
  /** What is withdrawn: "fish T24-07-12". */
  what: string;
  /** The verb of the button; "Withdraw" unless given. */
  verb?: string;
}

/** Asks for the reason of a withdrawal. Nothing is deleted: the record stays in the history. */
export function WithdrawForm({ what, verb = 'Withdraw', ...form }: WithdrawFormProps) {
  return (
    <ReasonForm {...form} submit={verb} danger>
      <p>
        {verb} {what}: it leaves the lists but stays in the history with your reason.
      </p>
    </ReasonForm>
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
