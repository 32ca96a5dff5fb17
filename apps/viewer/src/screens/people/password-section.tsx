import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { SESSION, SET_PASSWORD } from '../../api/session.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { SecretField } from '../../components/fields.js';
import { Done } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { NewPasswordFields, newPassword, sameTwice, typedTwice } from '../session/new-password.js';

const schema = z.object({ current: z.string(), ...newPassword }).refine(sameTwice, typedTwice);
const empty = { current: '', password: '', repeat: '' };

/** Sets the owner's password, or changes it for a person who knows the current one. */
export function PasswordSection() {
  const read = useRead(SESSION, {});
  return (
    <Section title="Your password">
      <Shown read={read} what="the session">
        {({ session }) => <PasswordForm hasPassword={session.hasPassword} />}
      </Shown>
    </Section>
  );
}

function PasswordForm({ hasPassword }: { hasPassword: boolean }) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: empty });
  const { save, saving, problem } = useSave(SET_PASSWORD);
  const [changed, setChanged] = useState(false);
  return (
    <>
      {!hasPassword && (
        <p>No password is set: anyone who uses this computer can open these records.</p>
      )}
      {changed && <Done>The password is changed. Other browsers have to sign in again.</Done>}
      <RecordForm
        form={form}
        submit={hasPassword ? 'Change password' : 'Set password'}
        saving={saving}
        problem={problem}
        onSubmit={async ({ current, password }) => {
          setChanged(false);
          if ((await save({ password, current: hasPassword ? current : null })) === null) return;
          form.reset(empty);
          setChanged(true);
        }}
      >
        {hasPassword && (
          <SecretField name="current" label="Current password" autoComplete="current-password" />
        )}
        <NewPasswordFields />
      </RecordForm>
    </>
  );
}
