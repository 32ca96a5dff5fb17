import { zodResolver } from '@hookform/resolvers/zod';
import type { ReactNode } from 'react';
import { useForm } from 'react-hook-form';
import type { TypedDocumentNode } from 'urql';
import { z } from 'zod';
import { useSave } from '../../api/use-save.js';
import { SecretField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';

/** Asked for before what opens these records is changed. */
export const ownPassword = { password: z.string().min(1, 'Type your password.') };

export function OwnPasswordField() {
  return <SecretField name="password" label="Your password" autoComplete="current-password" />;
}

interface OwnPasswordFormProps<Data> {
  mutation: TypedDocumentNode<Data, { password: string }>;
  submit: string;
  onSaved: (saved: Data) => void;
  onCancel: () => void;
  /** Said above the field. */
  children?: ReactNode;
}

/** Asks for the password and for nothing else. */
export function OwnPasswordForm<Data>(props: OwnPasswordFormProps<Data>) {
  const form = useForm({
    resolver: zodResolver(z.object(ownPassword)),
    defaultValues: { password: '' },
  });
  const { save, saving, problem } = useSave(props.mutation);
  return (
    <RecordForm
      fleeting
      form={form}
      submit={props.submit}
      saving={saving}
      problem={problem}
      onCancel={props.onCancel}
      onSubmit={async (given) => {
        const saved = await save(given);
        if (saved !== null) props.onSaved(saved);
      }}
    >
      {props.children}
      <OwnPasswordField />
    </RecordForm>
  );
}
